/** How large it should be: the habits of the trade beside a drawing, and a walk from a pond to a drawing. */
export type { Rule, RuleQuantity } from "./rules/rule.ts";
export { rulesOfThumb } from "./rulesOfThumb.ts";
export { type Walk, walk } from "./walk.ts";
export { usualWish, type WalkWish } from "./wish.ts";
