import type { Note, PartId } from "../../../hydraulics/index.ts";
import { plainText } from "../../scene/plainText.ts";
import { paragraph } from "./cells.ts";
import type { GroupIn } from "./group.ts";

/** Notes in full, for those that have no room beside their place on the section. */
export const notesGroup =
  (notes: ReadonlySet<PartId>): GroupIn =>
  (drawing, _, width) => ({
    key: "notes",
    title: "Notes in full",
    items: drawing.parts
      .filter((part): part is Note => part.kind === "note" && notes.has(part.id))
      .map((note) => paragraph(plainText(note.text), width)),
    gap: 1,
  });
