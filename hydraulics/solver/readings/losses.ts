/** What a pipe's stretches lose, and to what. */
import { openingHeadOf, pipeC, pipeRoughness, siteOf } from "../../document/defaults.ts";
import type { Section } from "../../document/section.ts";
import { darcyWeisbach } from "../../elements/darcyWeisbach.ts";
import { hazenWilliams } from "../../elements/hazenWilliams.ts";
import { entranceK, exitK } from "../../formulas/fittingK.ts";
import { bearsOn } from "../../network/bearsOn.ts";
import type { Bears, PipeEndModel, PipeModel, StretchModel } from "../../network/network.ts";
import type { Fluid } from "./fluid.ts";

export const lengthOf = (pipe: PipeModel, stretch: StretchModel): number =>
  stretch.end - stretch.start + (stretch === pipe.stretches[0] ? pipe.extra : 0);

/** m lost in a metre of pipe, by the formula in use and by the other one. */
export function lossesByFormula(section: Section, pipe: PipeModel, fluid: Fluid) {
  const D = pipe.pipe.bore;
  const byHazenWilliams = hazenWilliams.build({ L: 1, D, C: pipeC(pipe.pipe) });
  const byDarcy = darcyWeisbach.build({ L: 1, D, roughness: pipeRoughness(pipe.pipe), viscosity: fluid.kinematic });
  const isUsed = siteOf(section).friction === "hazen-williams";
  return {
    used: (Q: number) => (isUsed ? byHazenWilliams : byDarcy).loss(Q),
    other: (Q: number) => (isUsed ? byDarcy : byHazenWilliams).loss(Q),
  };
}

/** ΣK on a stretch for the way the water goes, its entrance and exit included. */
export function fittingsOn(pipe: PipeModel, stretch: StretchModel, Q: number): number {
  if (Q === 0) return 0;
  let k = 0;
  for (const item of bearsOfStretch(pipe, stretch)) k += Q > 0 ? item.kForward : item.kBackward;
  if (stretch === pipe.stretches[0]) k += endK(pipe.from, Q > 0);
  if (stretch === pipe.stretches.at(-1)) k += endK(pipe.to, Q < 0);
  return k;
}

export const bearsOfStretch = (pipe: PipeModel, stretch: StretchModel): readonly Bears[] =>
  bearsOn(pipe, { start: stretch.start, end: stretch.end, startIsEnd: stretch === pipe.stretches[0] });

function endK(end: PipeEndModel, entering: boolean): number {
  if (end.kind === "air") return entering ? 0 : exitK;
  if (end.kind !== "body") return 0;
  return entering ? entranceK(end.opening.mouth) : exitK;
}

/** m that the check valves on a stretch take, besides their K, to be lifted by water going their way. */
export const openingHeadsOn = (pipe: PipeModel, stretch: StretchModel, Q: number): number =>
  bearsOfStretch(pipe, stretch).reduce((sum, item) => sum + openingHeadAt(pipe, item, Q), 0);

/** One that is stuck open takes none. */
export function openingHeadAt(pipe: PipeModel, { valve }: Bears, Q: number): number {
  const check = pipe.checks.find((each) => each.valve === valve);
  return Q > 0 && check ? openingHeadOf(check.valve) : 0;
}
