/** What a drawing is made of: the list to buy from. What each pipe bears is `lossesOf.ts`. */
export { type MaterialRow, materialsList, type Priced } from "./materialsList.ts";
export { costOf, totalsOf } from "./totals.ts";
