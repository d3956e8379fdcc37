/** What a drawing is made of: the list to buy from. What each pipe bears is `lossesOf.ts`. */
export { materialsList } from "./materialsList.ts";
export type { MaterialRow, Priced } from "./row.ts";
export { costOf, totalsOf } from "./totals.ts";
