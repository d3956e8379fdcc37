/** A vessel's returns ended lower: what limits a return at its outlet is the level there. The end stays over the water
 * that it falls into, where it can be seen running. */
import { siteOf } from "../document/defaults.ts";
import type { PipeEnd, Section } from "../document/section.ts";
import { returnsOf } from "../faults/returnsOf.ts";
import { called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { relaid } from "./relaid.ts";
import type { Remedy, Trouble } from "./remedy.ts";
import { downToMm, upToMm } from "./rounding.ts";

/** m, tried in turn */
const falls = [0.05, 0.1, 0.2, 0.4];
/** m over the water or the ground that it ends over */
const clear = 0.02;

export const lowerOutlet: Remedy = function* (trouble) {
  const { section, assessed, finding } = trouble;
  const [id] = finding.parts;
  const returns = returnsOf(assessed.state).filter(({ vessel }) => vessel === id);
  for (const fall of falls) {
    let now: Section = section;
    const said: string[] = [];
    for (const { pipe: model, mouthAt } of returns) {
      const pipe = now.parts.get(model.pipe.id);
      const side = mouthAt === 0 ? "to" : "from";
      // What carries it on would have to be lowered with it.
      const end = pipe?.kind === "pipe" && model[side].kind !== "joint" ? pipe[side] : null;
      const least = end && under(trouble, end);
      if (pipe?.kind !== "pipe" || !end || least === null || !("z" in end) || end.z === undefined) continue;
      const z = Math.max(downToMm(end.z - fall), upToMm(least + clear));
      if (z >= end.z) continue;
      now = relaid(now, pipe, { route: [...(pipe.route ?? [])], [side]: { ...end, z } });
      said.push(`Bring the outlet of ${called(section, pipe.id)} down to ${levelWords(z)}`);
    }
    if (said.length > 0) yield { label: said.join("; "), section: now };
  }
};

/** The level that an end stands over; null for a tee, a pump, or a body of which no level is known. */
function under({ section, assessed: { running } }: Trouble, end: PipeEnd): number | null {
  if ("open" in end) return siteOf(section).groundLevel;
  const body = "part" in end ? section.parts.get(end.part) : undefined;
  if (body?.kind === "pond") return body.waterLevel;
  return body?.kind === "vessel" && running.converged ? (running.vessels.get(body.id)?.level ?? null) : null;
}
