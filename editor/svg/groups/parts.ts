import type { Drawing } from "../../scene/drawing.ts";
import { partsList } from "../partsList.ts";
import type { Cell, TableGroup, TableItem } from "../tableColumn.ts";
import { wholeText } from "../wholeText.ts";
import { apart, bold, nameX, normal, numberCell, widest } from "./cells.ts";
import type { Numbers } from "./group.ts";

export function partsGroup(drawing: Drawing, numbers: Numbers, width: number): TableGroup {
  const parts = partsList(drawing, numbers);
  const nameRoom = Math.min(
    widest(
      parts.map((part) => part.name),
      500,
    ),
    width * 0.36,
  );
  const what = nameX + nameRoom + apart;
  return {
    key: "parts",
    title: "Parts",
    items: parts.map((part): TableItem => {
      const names = wholeText(part.name, nameRoom, bold);
      const whats = wholeText(part.what, width - what, normal);
      return Array.from({ length: Math.max(names.length, whats.length, 1) }, (_, i): readonly Cell[] => [
        ...(i === 0 ? [numberCell(part.number)] : []),
        ...(names[i] === undefined ? [] : [{ x: nameX, text: names[i], weight: 500 } as const]),
        ...(whats[i] === undefined ? [] : [{ x: what, text: whats[i] }]),
      ]);
    }),
  };
}
