/** Units of the trade in SI: multiply by the factor to get SI.
 * Exact by definition where the docstring gives no other source. Source: NIST Special Publication 811, appendix B;
 * published/units.test.ts. */
import { g } from "./gravity.ts";

export const inch = 0.0254;
export const foot = 12 * inch;
/** US, liquid: 231 cubic inches */
export const gallon = 231 * inch ** 3;
export const gallonPerMinute = gallon / 60;
export const gallonPerHour = gallon / 3600;
export const cubicFootPerSecond = foot ** 3;
export const pound = 0.45359237;
/** pound-force per square inch, Pa */
export const psi = (pound * g) / inch ** 2;
/** m of water of that density that a pressure in Pa stands for */
export const metresOfWater = (pascal: number, density: number): number => pascal / (density * g);
/** Pa: a foot of water of 1,000 kg/m³, the conventional column */
export const footOfWater = foot * 1000 * g;
