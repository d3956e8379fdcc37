import type { PartId } from "../../document/section.ts";

type RuleSource = "common practice" | "published" | "from memory" | "worked out";
export type RuleQuantity =
  | "share"
  | "turnover"
  | "upflow"
  | "length"
  | "velocity"
  | "ratio"
  | "flowPerWidth"
  | "time"
  | "pressure"
  | "yesNo";

export interface Rule {
  readonly code: string;
  /** of which part the figure is; null: of the drawing */
  readonly part: PartId | null;
  readonly rule: string;
  /** the span that is called right; null: open on that side */
  readonly least: number | null;
  readonly most: number | null;
  readonly quantity: RuleQuantity;
  /** null where this drawing has nothing of the kind */
  readonly has: number | null;
  /** null where it can not be said */
  readonly met: boolean | null;
  readonly source: RuleSource;
  readonly where: string;
}

export type Given = Omit<Rule, "met">;

export const judged = (rule: Given): Rule => ({
  ...rule,
  met:
    rule.has === null
      ? null
      : (rule.least === null || rule.has >= rule.least - 1e-9) && (rule.most === null || rule.has <= rule.most + 1e-9),
});
