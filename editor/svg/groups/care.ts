import { cautions } from "../../../hydraulics/index.ts";
import type { Drawing } from "../../scene/drawing.ts";
import type { TableGroup } from "../tableColumn.ts";
import { paragraph } from "./cells.ts";
import type { Numbers } from "./group.ts";

export function careGroup(_drawing: Drawing, _: Numbers, width: number): TableGroup {
  return { key: "care", title: "Take care", items: cautions.map((each) => paragraph(each, width)), gap: 1, kept: true };
}
