/** The laws of loss that a drawing's pipes are given, by its friction formula and its uncertain inputs. */
import { pipeC, pipeRoughness } from "../document/defaults.ts";
import type { Pipe } from "../document/section.ts";
import { darcyWeisbach } from "../elements/darcyWeisbach.ts";
import type { LawNumbers, Loss } from "../elements/element.ts";
import { hazenWilliams } from "../elements/hazenWilliams.ts";
import { boreArea } from "../formulas/circle.ts";
import { g } from "../formulas/gravity.ts";
import { kinematicViscosity } from "../formulas/water.ts";
import type { Draft } from "./draft.ts";

/** A loss so small that it only gives Newton's method a slope. */
export const seamless: Loss = {
  loss: (Q) => 1e-6 * Q,
  slope: () => 1e-6,
  content: (Q) => 0.5e-6 * Q * Q,
  numbers: { shape: "power", r: 1e-6, power: 0, knee: 1 },
};

/** Friction of L m of a pipe. C is scattered; in the other formula the same share of loss is. */
export function frictionOf({ site, scatter }: Draft, pipe: Pipe, L: number): Loss {
  const D = pipe.bore;
  if (site.friction === "hazen-williams") return hazenWilliams.build({ L, D, C: pipeC(pipe) * scatter.c });
  const viscosity = kinematicViscosity(site.waterTemperature);
  return scaled(darcyWeisbach.build({ L, D, roughness: pipeRoughness(pipe), viscosity }), scatter.c ** -1.852);
}

/** Loss ΣK·V²/2g as a factor on Q². */
export const squareOf = (K: number, bore: number): number => K / (2 * g * boreArea(bore) ** 2);

export const scaled = (law: Loss, times: number): Loss =>
  times === 1
    ? law
    : {
        loss: (Q) => times * law.loss(Q),
        slope: (Q) => times * law.slope(Q),
        content: (Q) => times * law.content(Q),
        ...(law.numbers ? { numbers: numbersTimes(law.numbers, times) } : {}),
      };

const numbersTimes = (law: LawNumbers, times: number): LawNumbers =>
  law.shape === "power" ? { ...law, r: times * law.r } : { ...law, headPerPhi: times * law.headPerPhi };
