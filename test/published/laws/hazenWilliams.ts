/** Hazen-Williams against friction tables, and its factor in other units. */
import { hazenWilliams } from "../../../hydraulics/elements/hazenWilliams.ts";
import { foot, gallonPerMinute, inch, metresOfWater, psi } from "../../../hydraulics/formulas/units.ts";
import type { Numbers } from "../given.ts";
import { type Checks, published } from "../hold.ts";

const first = ({ flow_m3_s, length_m, bore_m, hazenWilliamsC }: Numbers) =>
  hazenWilliams.build({ L: length_m, D: bore_m, C: hazenWilliamsC }).loss(flow_m3_s);
const second = ({ flow_m3_s, length_m, bore_m, hazen_williams_C }: Numbers) =>
  hazenWilliams.build({ L: length_m, D: bore_m, C: hazen_williams_C }).loss(flow_m3_s);

/** Two readings of one table, which name the factor C differently. */
const table = Object.fromEntries(
  [...published.values()]
    .filter(({ id }) => id.startsWith("hw-sch40-"))
    .map(({ id, inputs }) => [id, "hazenWilliamsC" in inputs ? first : second]),
);

export const hazenWilliamsChecks: Checks = {
  ...table,
  "hw-16in-2700gpm": second,
  // 10 gpm, 1 in, C 100, over a foot: k·10^1.85/100^1.85 psi.
  "hw-constant-psi": ({ water_kg_m3 }) => {
    const loss = hazenWilliams.build({ L: foot, D: inch, C: 100 }).loss(10 * gallonPerMinute);
    return (loss / metresOfWater(psi, water_kg_m3)) * 10 ** 1.85;
  },
  // A foot of pipe of 1 ft at 1 ft³/s, C 1, in feet.
  "hw-constant-ft-cfs": () => hazenWilliams.build({ L: foot, D: foot, C: 1 }).loss(foot ** 3) / foot,
};
