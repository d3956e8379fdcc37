/** A pump's line brought down to just over the rim of what it feeds: its highest points, and an end that stands higher.
 * A vent on it goes down with its tee; its open end stays where it is. */
import { pipeLine } from "../document/geometry.ts";
import type { PipeEnd, Point, Section } from "../document/section.ts";
import { called } from "../findings/words.ts";
import type { PipeModel } from "../network/network.ts";
import { levelWords } from "../powerCut/words.ts";
import { linesOfPump } from "./linesOfPump.ts";
import { relaid } from "./relaid.ts";
import type { Candidate, Remedy } from "./remedy.ts";
import { upToMm } from "./rounding.ts";

/** m over the rim, tried in turn: of the line's top, with its end somewhat lower */
const tops = [0.15, 0.08, 0.04];
const endUnderTop = 0.03;

/** Of the pump that a finding names. */
export const lowerLinesOfPump: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  if (id === undefined) return;
  for (const model of linesOfPump(assessed.state, id)) yield* lowered(section, model);
};

/** The pipe that a finding names. */
export const lowerLine: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  const model = id === undefined ? undefined : assessed.state.network.pipes.get(id);
  if (model) yield* lowered(section, model);
};

function* lowered(section: Section, { pipe: { id } }: PipeModel): Generator<Candidate> {
  const pipe = section.parts.get(id);
  if (pipe?.kind !== "pipe") return;
  const end = pipe.to;
  const body = "part" in end ? section.parts.get(end.part) : undefined;
  if (!("part" in end) || (body?.kind !== "vessel" && body?.kind !== "pond")) return;
  const highest = Math.max(...pipeLine(section, pipe).map(([, z]) => z));
  for (const over of tops) {
    const top = upToMm(body.rimLevel + over);
    if (top >= highest) continue;
    const route = (pipe.route ?? []).map(([x, z]): Point => [x, Math.min(z, top)]);
    const to: PipeEnd =
      end.z !== undefined && end.z > top - endUnderTop ? { ...end, z: upToMm(top - endUnderTop) } : end;
    yield {
      label: `Bring ${called(section, pipe.id)} down to ${levelWords(top)} at its highest`,
      section: relaid(section, pipe, { route, to }),
    };
  }
}
