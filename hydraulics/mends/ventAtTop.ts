/** A vent at the top of each line that can run the vessel empty: the line's own vent moved there, or a new one. */
import { pipeLine } from "../document/geometry.ts";
import type { PartId, Pipe, Section, Vent } from "../document/section.ts";
import { boreWords, called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { fullyOpen, withAmpleVent, withPart } from "./ampleVent.ts";
import { freshId, lastRank } from "./freshPart.ts";
import type { Candidate, Remedy } from "./remedy.ts";
import { along, upToMm } from "./rounding.ts";
import { topOf } from "./tops.ts";
import { type UnsafeLine, unsafeLines } from "./unsafeLines.ts";

/** m over the vessel's water that a tee should stand at least: waves, a part-clogged return */
export const overWater = 0.02;
/** m over the rim for the open end: the habit of codes against backflow */
export const endOverRim = 0.15;
const firstBore = 0.0125;

export const ventAtTop: Remedy = function* ({ section, assessed, finding }) {
  for (const id of finding.parts) {
    const lines = unsafeLines(assessed, id);
    if (lines.length === 0) continue;
    if (lines.some(({ crest, level }) => crest < level + overWater)) continue;
    const made = ventsAtTops(section, lines);
    if (made) yield made;
  }
};

export function ventsAtTops(section: Section, lines: readonly UnsafeLine[]): Candidate | null {
  let now = section;
  const said: string[] = [];
  for (const line of lines) {
    const pipe = now.parts.get(line.pipe.pipe.id);
    if (pipe?.kind !== "pipe") return null;
    const own = [...now.parts.values()].find((part): part is Vent => part.kind === "vent" && part.on.pipe === pipe.id);
    const put = putVent(now, pipe, own, line.vessel.rimLevel + endOverRim);
    if (!put) return null;
    now = put.section;
    said.push(wordsOf(now, put.vent, own, pipe));
  }
  return { label: said.join("; "), section: now };
}

/** The vent at the top of a pipe, ample; null where that cannot be had. */
export function putVent(
  section: Section,
  pipe: Pipe,
  own: Vent | undefined,
  endLevel: number,
): { section: Section; vent: PartId; level: number } | null {
  const top = topOf(pipeLine(section, pipe));
  const on = { pipe: pipe.id, at: along(top.at) };
  const openEndZ = upToMm(Math.max(endLevel, top.level));
  const vent: Vent = own
    ? { ...fullyOpen(own), on, openEndZ: Math.max(openEndZ, own.openEndZ ?? openEndZ) }
    : { kind: "vent", id: freshId(section, "breather"), rank: lastRank(section), on, bore: firstBore, openEndZ };
  const ample = withAmpleVent(withPart(section, vent), vent.id);
  return ample && { section: ample, vent: vent.id, level: top.level };
}

function wordsOf(section: Section, id: PartId, own: Vent | undefined, pipe: Pipe): string {
  const vent = section.parts.get(id);
  if (vent?.kind !== "vent") return "";
  const level = levelWords(topOf(pipeLine(section, pipe)).level);
  const bore = boreWords(vent.bore);
  if (!own) return `Put a vent of ${bore} on ${called(section, pipe.id)} at its top, ${level}`;
  const wider = vent.bore > own.bore ? ` and give it a bore of ${bore}` : "";
  const opened = own.open !== undefined && own.open < 1 ? ", fully open" : "";
  return `Move the tee of ${called(section, id)} to ${level}, the top of ${called(section, pipe.id)}${wider}${opened}`;
}
