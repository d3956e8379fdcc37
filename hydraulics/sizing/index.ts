/** How large it should be: the habits of the trade beside a drawing, and a walk from a pond to a drawing. */
export { type Rule, type RuleQuantity, rulesOfThumb } from "./rulesOfThumb.ts";
export { usualWish, type Walk, type WalkWish, walk } from "./walk.ts";
