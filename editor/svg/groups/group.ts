import type { PartId } from "../../../hydraulics/index.ts";
import type { Drawing } from "../../scene/drawing.ts";
import type { TableGroup } from "../tableColumn.ts";

export type Numbers = ReadonlyMap<PartId, number>;
/** A group of a table for a column of this width, mm. */
export type GroupIn = (drawing: Drawing, numbers: Numbers, width: number) => TableGroup;
