/** Each line that can run the vessel empty led over a point above the rim, with an ample vent there:
 *
 *            ┌────●────┐  rim + 0.1
 *            │         │ ┌ rim
 *      ──────┘         └─┤ mouth            */
import { drawnWidth, pipeLine } from "../document/geometry.ts";
import type { Pipe, Point, Section, Vent } from "../document/section.ts";
import { boreWords, called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { relaid } from "./relaid.ts";
import type { Candidate, Remedy } from "./remedy.ts";
import { upToMm } from "./rounding.ts";
import { type UnsafeLine, unsafeLines } from "./unsafeLines.ts";
import { endOverRim, overWater, putVent, ventsAtTops } from "./ventAtTop.ts";

/** m over the rim */
const over = 0.1;
/** m beside the wall that the line comes down, and further out that it goes up */
const beside = 0.12;
const loop = 0.25;

export const overHighPoint: Remedy = function* ({ section, assessed, finding }) {
  for (const id of finding.parts) {
    const lines = unsafeLines(assessed, id);
    // Where every line rises over the water as it is, `ventAtTop` has said it all.
    if (!lines.some(isLow)) continue;
    let now: Section | null = section;
    const said: string[] = [];
    for (const line of lines) {
      const step: Candidate | null = now && (isLow(line) ? ledOver(now, line) : ventsAtTops(now, [line]));
      now = step?.section ?? null;
      if (step) said.push(step.label);
    }
    if (now) yield { label: said.join("; "), section: now };
  }
};

const isLow = ({ crest, level }: UnsafeLine): boolean => crest < level + overWater;

function ledOver(section: Section, line: UnsafeLine): Candidate | null {
  const pipe = section.parts.get(line.pipe.pipe.id);
  if (pipe?.kind !== "pipe") return null;
  const top = upToMm(line.vessel.rimLevel + over);
  const led = relaid(section, pipe, { route: routeOver(section, pipe, line, top) });
  const changed = led.parts.get(pipe.id);
  if (changed?.kind !== "pipe") return null;
  const own = [...led.parts.values()].find((part): part is Vent => part.kind === "vent" && part.on.pipe === pipe.id);
  const put = putVent(led, changed, own, line.vessel.rimLevel + endOverRim);
  const vent = put?.section.parts.get(put.vent);
  if (!put || vent?.kind !== "vent") return null;
  const by = `${own ? called(section, own.id) : "a vent"} of ${boreWords(vent.bore)}`;
  const label = `Lead ${called(section, pipe.id)} over a point at ${levelWords(top)}, above the rim of ${called(section, line.vessel.id)}, with ${by} there`;
  return { label, section: put.section };
}

function routeOver(section: Section, pipe: Pipe, { side, vessel, opening }: UnsafeLine, top: number): readonly Point[] {
  const line = pipeLine(section, pipe);
  const towards = side === "to" ? line : [...line].reverse();
  const mouth = towards.at(-1) as Point;
  const before = towards.at(-2) as Point;
  const out = before[0] < mouth[0] ? -1 : 1;
  const wall = out < 0 ? vessel.x : vessel.x + drawnWidth(vessel);
  const upX =
    Math.abs(before[0] - wall) > beside + loop / 2 && out * (before[0] - wall) > 0
      ? before[0]
      : wall + out * (beside + loop);
  const upFrom: Point = [upX, before[1]];
  // A side mouth is reached down its wall; an end inside the vessel from over it.
  const down: Point[] =
    opening.mouth === "side"
      ? [
          [wall + out * beside, top],
          [wall + out * beside, mouth[1]],
        ]
      : [[mouth[0], top]];
  const inner = [...towards.slice(1, -1), ...(samePlace(upFrom, before) ? [] : [upFrom]), [upX, top] as Point, ...down];
  const route = inner.map(([x, z]): Point => [Number(x.toFixed(4)), Number(z.toFixed(4))]);
  return side === "to" ? route : route.reverse();
}

const samePlace = (a: Point, b: Point): boolean => Math.hypot(a[0] - b[0], a[1] - b[1]) < 1e-4;
