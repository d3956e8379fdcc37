/** Numbers of the parts list on the drawing, where the sheet has such a list. */
import type { PartId } from "../../hydraulics/index.ts";
import type { Drawing } from "./drawing.ts";

export function numberOf(drawing: Drawing, id: PartId): { readonly number?: number } {
  const number = drawing.input.view.numbers?.get(id);
  return number === undefined ? {} : { number };
}
