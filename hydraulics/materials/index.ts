/** What a drawing is made of: the list to buy from, and what each pipe bears. */
export { type LossItem, lossesOf } from "./lossesOf.ts";
export {
  type Cutting,
  type MaterialGroup,
  type MaterialRow,
  materialsList,
  type Priced,
  usualStock,
} from "./materialsList.ts";
export { costOf, type Totals, totalsOf } from "./totals.ts";
