/** What sits on a pipe: where, which way the pipe runs there, and the spots for its words. */
import {
  type CheckValve,
  type Pipe,
  type Point,
  pipeLine,
  placeAt,
  type Valve,
  type Vent,
} from "../../hydraulics/index.ts";
import { type Drawing, paperAt } from "./drawing.ts";
import { wordRole } from "./inFault.ts";
import type { LabelLine, LabelRequest, Spot } from "./labelRequest.ts";
import { letters } from "./letters.ts";
import { turnAt } from "./lines.ts";
import { numberOf } from "./numbers.ts";
import type { Mm } from "./obstacles.ts";

export interface Seat {
  readonly pipe: Pipe;
  readonly place: Point;
  readonly turn: number;
}

export function seatOf({ section }: Drawing, device: Valve | CheckValve | Vent): Seat | null {
  const pipe = section.parts.get(device.on.pipe);
  if (pipe?.kind !== "pipe") return null;
  const line = pipeLine(section, pipe);
  return { pipe, place: placeAt(line, device.on.at), turn: turnAt(line, device.on.at) };
}

/** Symbols keep their size on a sheet, but on a small one they give way to what they stand on. */
export const symbolScale = (drawing: Drawing): number => Math.min(1, Math.max(0.6, drawing.transform.mmPerMetre / 36));

/** Round a symbol: over, under, to the sides, then further off on a leader. */
export function spotsAround([x, y]: Mm, reach: number): readonly Spot[] {
  const spots: Spot[] = [
    { at: [x, y - reach], across: 0, down: -1 },
    { at: [x, y + reach], across: 0, down: 1 },
    { at: [x + reach, y], across: 1, down: 0 },
    { at: [x - reach, y], across: -1, down: 0 },
  ];
  for (const away of [reach + 2, reach + 6, reach + 11, reach + 17, reach + 24]) {
    for (const [dx, dy] of [
      [0.6, -1],
      [-0.6, -1],
      [0.6, 1],
      [-0.6, 1],
      [1, -0.3],
      [-1, -0.3],
      [1, 0.4],
      [-1, 0.4],
    ] as const) {
      spots.push({
        at: [x + dx * away, y + dy * away],
        across: Math.sign(dx) as -1 | 1,
        down: dy < -0.5 ? -1 : dy > 0.5 ? 1 : 0,
        leadFrom: [x, y],
      });
    }
  }
  return spots;
}

export function deviceLabel(
  drawing: Drawing,
  device: Valve | CheckValve | Vent,
  at: Point,
  reach: number,
  name: string,
  words: readonly string[],
): LabelRequest {
  const title: LabelLine = { size: letters.small, runs: [{ text: name, weight: 500, fill: "ink" }] };
  const more = words.map(
    (text): LabelLine => ({ size: letters.small, runs: [{ text, weight: 400, fill: wordRole(drawing, device.id) }] }),
  );
  return {
    key: `${device.id} name`,
    own: reach + 2.4,
    part: device.id,
    ...numberOf(drawing, device.id),
    variants: more.length > 0 ? [[title, ...more], [title, ...more.slice(0, 1)], [title]] : [[title]],
    spots: spotsAround(paperAt(drawing, at), reach),
  };
}
