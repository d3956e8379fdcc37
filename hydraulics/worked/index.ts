/** How a figure follows: formula, numbers, source. */
export { lineOf, type Worked } from "./worked.ts";
export { workedOf } from "./workedOf.ts";
