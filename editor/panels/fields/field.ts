/** One line of a slip: what a person may type or choose about a part. A kind of part is a list of these, so
 * that several parts of a kind can be changed at once by the same line. */
import type { Draft } from "immer";
import type { Part, Section } from "../../../hydraulics/index.ts";

export type Quantity =
  | "level"
  /** across the sheet, from where it is reckoned: to either side */
  | "place"
  | "length"
  | "bore"
  | "flow"
  | "head"
  | "power"
  | "temperature"
  | "velocity"
  | "roughness"
  | "grain"
  | "openingHead";

interface Base<P extends Part> {
  readonly label: string;
  /** said under the line: what an absent value means, a rule of the trade */
  readonly hint?: (part: P, section: Section) => string;
  readonly shownFor?: (part: P) => boolean;
}

export interface QuantityField<P extends Part> extends Base<P> {
  readonly kind: "quantity";
  readonly quantity: Quantity;
  readonly get: (part: P) => number | undefined;
  /** undefined clears an optional field */
  readonly set: (part: Draft<P>, value: number | undefined) => void;
  readonly optional?: (part: P, section: Section) => number | null;
}

/** A bare number: a factor, a share in percent, a count. */
export interface NumberField<P extends Part> extends Base<P> {
  readonly kind: "number";
  readonly percent?: boolean;
  readonly get: (part: P) => number | undefined;
  readonly set: (part: Draft<P>, value: number | undefined) => void;
  readonly optional?: (part: P, section: Section) => number | null;
}

export interface TextField<P extends Part> extends Base<P> {
  readonly kind: "text";
  readonly long?: boolean;
  readonly get: (part: P) => string;
  readonly set: (part: Draft<P>, value: string) => void;
}

export interface ChoiceField<P extends Part> extends Base<P> {
  readonly kind: "choice";
  readonly options: (part: P, section: Section) => readonly (readonly [value: string, word: string])[];
  readonly get: (part: P) => string;
  readonly set: (part: Draft<P>, value: string, section: Section) => void;
}

/** Parts of a slip that are more than a line. */
export interface TableField<P extends Part> extends Base<P> {
  readonly kind: "curve" | "media" | "fittings" | "end" | "size" | "bends";
  readonly which?: "from" | "to";
}

export type Field<P extends Part> = QuantityField<P> | NumberField<P> | TextField<P> | ChoiceField<P> | TableField<P>;

export function labelField<P extends Part>(): TextField<P> {
  return {
    kind: "text",
    label: "Name",
    get: (part) => part.label ?? "",
    set: (part, value) => {
      const target = part as { label?: string };
      if (value === "") delete target.label;
      else target.label = value;
    },
  };
}

/** A number that is always there. */
export const quantity = <P extends Part>(
  label: string,
  kind: Quantity,
  get: (part: P) => number,
  set: (part: Draft<P>, value: number) => void,
): QuantityField<P> => ({
  kind: "quantity",
  quantity: kind,
  label,
  get,
  set: (part, value) => {
    if (value !== undefined) set(part, value);
  },
});
