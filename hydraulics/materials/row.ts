import type { PartId } from "../document/section.ts";
import type { Cut } from "./cutFrom.ts";

export type MaterialGroup = "pipe" | "fitting" | "valve" | "bulkhead" | "media" | "vessel" | "pump" | "sill";
/** What one price is for. */
export type Priced = "length" | "metre" | "piece" | "kilogram";

export interface MaterialRow {
  /** the same for the same thing in every drawing: prices are kept by it */
  readonly key: string;
  readonly group: MaterialGroup;
  readonly what: string;
  readonly priced: Priced;
  /** in what it is priced by */
  readonly amount: number;
  /** m of pipe as drawn, extra length included; of pipes only */
  readonly length: number | null;
  readonly cutting: Cut | null;
  /** m³ in bulk, of stone; of a vessel its gross volume */
  readonly volume: number | null;
  /** kg, of stone */
  readonly mass: number | null;
  readonly parts: readonly PartId[];
}

/** A row with what it has; the rest is null. */
export const plainRow = (
  row: Pick<MaterialRow, "key" | "group" | "what" | "priced" | "amount" | "parts"> & Partial<MaterialRow>,
): MaterialRow => ({ length: null, cutting: null, volume: null, mass: null, ...row });
