/** Each line that can run the vessel empty ended over its rim: an air gap, which nothing can block. */
import { drawnWidth, pipeLine } from "../document/geometry.ts";
import type { PartId, PipeEnd, Point, Section } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { relaid } from "./relaid.ts";
import type { Remedy } from "./remedy.ts";
import { upToMm } from "./rounding.ts";
import { type UnsafeLine, unsafeLines } from "./unsafeLines.ts";

/** m over the rim: of the end, and of the line's top */
const gap = 0.03;
const over = 0.12;
/** of the vessel's width that the end stands inside the wall */
const inside = 0.15;

export const airGap: Remedy = function* ({ section, assessed, finding }) {
  for (const id of finding.parts) {
    const lines = unsafeLines(assessed, id).filter(({ pipe }) => pipe.runs === "full");
    if (lines.length === 0) continue;
    let now = section;
    const said: string[] = [];
    for (const line of lines) {
      const end = upToMm(line.vessel.rimLevel + gap);
      now = gapped(now, line, end);
      said.push(
        `End ${called(section, line.pipe.pipe.id)} at ${levelWords(end)}, above the rim of ${called(section, id)}`,
      );
    }
    const label = said.join("; ");
    yield { label, section: now };
    // A vent too low for the new top would spill, and an air gap needs none.
    if (lines.some(({ vents }) => vents.length > 0)) {
      yield {
        label: `${label}, and take its vents off`,
        section: withoutVentsOn(now, new Set(lines.map(({ pipe }) => pipe.pipe.id))),
      };
    }
  }
};

function gapped(section: Section, { pipe: model, vessel, side }: UnsafeLine, end: number): Section {
  const pipe = section.parts.get(model.pipe.id);
  if (pipe?.kind !== "pipe") return section;
  const line = pipeLine(section, pipe);
  const towards = side === "to" ? line : [...line].reverse();
  const before = towards.at(-2) as Point;
  const left = vessel.x;
  const right = vessel.x + drawnWidth(vessel);
  const fromLeft = before[0] < (left + right) / 2;
  const x = fromLeft ? left + inside * (right - left) : right - inside * (right - left);
  const top = Math.max(upToMm(vessel.rimLevel + over), Math.max(...towards.slice(0, -1).map(([, z]) => z)));
  // What only led down to the old mouth is taken off; the line goes on from its last point at the top.
  const inner = towards.slice(1, -1);
  const lastHigh = inner.findLastIndex(([, z]) => z >= top - 1e-6);
  const kept = lastHigh >= 0 ? inner.slice(0, lastHigh + 1) : inner;
  const lastX = (kept.at(-1) ?? (towards[0] as Point))[0];
  // A riser between the walls of the vessel would stand in its water.
  const upX = lastX > left && lastX < right ? (fromLeft ? left - over : right + over) : lastX;
  const riser: Point[] =
    lastHigh >= 0 ? [] : [...(upX === lastX ? [] : [[upX, (kept.at(-1) ?? before)[1]] as Point]), [upX, top]];
  const route = [...kept, ...riser, [x, top] as Point].map(
    ([px, pz]): Point => [Number(px.toFixed(4)), Number(pz.toFixed(4))],
  );
  const to: PipeEnd = { part: vessel.id, x: Number(x.toFixed(4)), z: end, mouth: "down" };
  return relaid(section, pipe, { route: side === "to" ? route : route.reverse(), [side]: to });
}

const withoutVentsOn = (section: Section, pipes: ReadonlySet<PartId>): Section => ({
  ...section,
  parts: new Map([...section.parts].filter(([, part]) => !(part.kind === "vent" && pipes.has(part.on.pipe)))),
});
