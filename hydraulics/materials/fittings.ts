/** Fittings of a pipe: those listed, its bends, and what joins it to others. */
import { countsBends, fittingsOf } from "../document/defaults.ts";
import { lineLength, pipeLine } from "../document/geometry.ts";
import type { Pipe, Section } from "../document/section.ts";
import { bendsOf, samePlace } from "../network/pipeModel.ts";
import type { Counted } from "./counted.ts";
import { fittingNames } from "./lossesOf.ts";
import { sizeOf } from "./sizeWords.ts";

/** degrees; pipe is laid with a turn as small as that without a fitting (5 % of fall is 3°) */
export const leastTurn = 5;
/** degrees by which a bend may differ from the elbow that is bought for it */
const near = 8;

export function fittingsOn(section: Section, pipe: Pipe, counted: Counted): void {
  const size = sizeOf(pipe);
  for (const { type, k, count } of fittingsOf(pipe)) {
    const name = type === "other" ? `${fittingNames.other} of K ${k ?? 0}` : fittingNames[type];
    counted.add("fitting", `${name}, ${size}`, pipe.id, "", count);
  }
  if (countsBends(pipe))
    for (const { turn } of bendsOf(pipeLine(section, pipe)))
      if (turn >= leastTurn) counted.add("fitting", `${bendName(turn)}, ${size}`, pipe.id);
  for (const end of [pipe.from, pipe.to]) {
    if (!("pipe" in end)) continue;
    const main = section.parts.get(end.pipe);
    if (main?.kind !== "pipe") continue;
    const whole = lineLength(pipeLine(section, main));
    const joint = end.at < samePlace || end.at > whole - samePlace;
    if (!joint) counted.add("fitting", `tee, ${sizeOf(main)} with a branch of ${size}`, pipe.id);
    else if (main.bore === pipe.bore) counted.add("fitting", `coupling, ${size}`, pipe.id);
    else counted.add("fitting", `reducer, ${sizeOf(main)} to ${size}`, pipe.id);
  }
}

const bendName = (turn: number): string =>
  Math.abs(turn - 90) <= near
    ? fittingNames.elbow90
    : Math.abs(turn - 45) <= near
      ? fittingNames.elbow45
      : `bend ${Math.round(turn)}°`;
