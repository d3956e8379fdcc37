/** A vessel's returns drawn lower: their mouths, and the points of their routes that would then stand higher. */
import { mouthOf } from "../document/defaults.ts";
import { bottomOf } from "../document/geometry.ts";
import type { PipeEnd, Point, Section } from "../document/section.ts";
import { returnsOf } from "../faults/returnsOf.ts";
import { called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { relaid } from "./relaid.ts";
import type { Remedy } from "./remedy.ts";
import { downToMm } from "./rounding.ts";

/** m, tried in turn */
const falls = [0.03, 0.06, 0.1, 0.15];
/** fall of a near-level run: 2 % is usual */
const slope = 0.02;

export const lowerMouth: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  const returns = returnsOf(assessed.state).filter(({ vessel }) => vessel === id);
  if (returns.length === 0) return;
  for (const fall of falls) {
    let now: Section | null = section;
    const said: string[] = [];
    for (const { pipe: model, vessel, mouthAt } of returns) {
      const pipe = now?.parts.get(model.pipe.id);
      const body = section.parts.get(vessel);
      const side = mouthAt === 0 ? "from" : "to";
      if (!now || pipe?.kind !== "pipe" || body?.kind !== "vessel") break;
      const end = pipe[side];
      if (!("part" in end)) break;
      const level = downToMm((end.z ?? bottomOf(body)) - fall);
      if (level - pipe.bore < body.baseLevel) break;
      const route = pipe.route ?? [];
      const lowered = lowerRoute(side === "from" ? route : [...route].reverse(), level, mouthOf(end) === "up");
      const to: PipeEnd = { ...end, z: level };
      now = relaid(now, pipe, { route: side === "from" ? lowered : lowered.reverse(), [side]: to });
      said.push(`Set the mouth of ${called(section, pipe.id)} to ${levelWords(level)}`);
    }
    if (now && said.length === returns.length) yield { label: said.join("; "), section: now };
  }
};

/** No point over the mouth, each a little lower than the one before where it had to come down. */
function lowerRoute(route: readonly Point[], mouth: number, standpipe: boolean): Point[] {
  if (standpipe) return [...route];
  let cap = mouth;
  let from: number | null = null;
  return route.map(([x, z]): Point => {
    if (z > cap) {
      cap -= from === null ? 0.005 : Math.min(0.02, slope * Math.abs(x - from));
      from = x;
      return [x, Number(cap.toFixed(4))];
    }
    cap = Math.min(cap, z);
    from = x;
    return [x, z];
  });
}
