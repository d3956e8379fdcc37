/** Which stretches of a pipe hold water: the whole of one that flows; of one at rest what lies under the water of
 * the body at its end, up to the first point over it or the first shut valve. */
import {
  type Body,
  isBody,
  lineLength,
  type Pipe,
  type PipeEnd,
  type Point,
  pipeLine,
  valveOpen,
} from "../../hydraulics/index.ts";
import { type Drawing, flowOf, waterLevel } from "./drawing.ts";
import { upTo, whileUnder } from "./lines.ts";

/** m³/s under which nothing is drawn as flowing: 0.04 L/h */
export const noFlow = 1e-8;

export function waterRuns(drawing: Drawing, pipe: Pipe): readonly (readonly Point[])[] {
  const line = pipeLine(drawing.section, pipe);
  const flow = flowOf(drawing, pipe.id);
  if (flow !== null && Math.abs(flow) > noFlow) return [line];
  const shut = shutPlaces(drawing, pipe);
  const length = lineLength(line);
  const fromStart = standing(drawing, pipe.from, line, shut[0] ?? length);
  const fromEnd = standing(drawing, pipe.to, line.toReversed(), length - (shut.at(-1) ?? 0));
  return [fromStart, fromEnd].filter((run) => run.length > 1);
}

function standing(drawing: Drawing, end: PipeEnd, line: readonly Point[], reach: number): readonly Point[] {
  const body = bodyAt(drawing, end);
  const level = body ? waterLevel(drawing, body) : null;
  if (level === null) return [];
  return whileUnder(upTo(line, reach), level);
}

function bodyAt({ section }: Drawing, end: PipeEnd): Body | null {
  if (!("part" in end)) return null;
  const part = section.parts.get(end.part);
  const body = part?.kind === "pump" ? (part.in === undefined ? undefined : section.parts.get(part.in)) : part;
  return isBody(body) ? body : null;
}

function shutPlaces({ parts }: Drawing, pipe: Pipe): readonly number[] {
  return parts
    .flatMap((part) => (part.kind === "valve" && part.on.pipe === pipe.id && valveOpen(part) === 0 ? [part.on.at] : []))
    .sort((a, b) => a - b);
}
