import { bottomOf, drawnWidth, type Part, type PartId, type Section } from "../../../hydraulics/index.ts";
import { type Changed, type Edit, joinEdits } from "../edit.ts";
import { inOrder } from "../inOrder.ts";
import { moveParts } from "./moveParts.ts";

export type Alignment = "left" | "right" | "top" | "bottom";

/** Brings the chosen parts to one edge or level: that of the first of them in the drawing's order. */
export function alignParts(section: Section, ids: ReadonlySet<PartId>, alignment: Alignment): Changed {
  const standing = inOrder(section).filter((part) => ids.has(part.id) && extent(part) !== null);
  const [first, ...others] = standing;
  if (!first || others.length === 0)
    return { ok: false, why: "Choose two or more ponds, vessels, pumps or notes to align." };
  const goal = (extent(first) as Extent)[alignment];
  let now = section;
  let edit: Edit | null = null;
  for (const part of others) {
    const by = goal - (extent(part) as Extent)[alignment];
    const level = alignment === "top" || alignment === "bottom";
    const moved = moveParts(now, new Set([part.id]), level ? 0 : by, level ? by : 0);
    if (!moved.ok) return moved;
    now = moved.section;
    edit = joinEdits(edit, moved.edit);
  }
  return { ok: true, section: now, edit: edit && { ...edit, label: `Align ${standing.length} parts` } };
}

interface Extent {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function extent(part: Part): Extent | null {
  if (part.kind === "pond" || part.kind === "vessel")
    return { left: part.x, right: part.x + drawnWidth(part), top: part.rimLevel, bottom: bottomOf(part) };
  if (part.kind === "pump" || part.kind === "note") return { left: part.x, right: part.x, top: part.z, bottom: part.z };
  return null;
}
