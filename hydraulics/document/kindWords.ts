import type { PartKind } from "./section.ts";

/** What a kind of part is called in a report; the sheet has a word of its own for a vent. */
export const kindWords: Readonly<Record<PartKind, string>> = {
  pond: "pond",
  vessel: "vessel",
  pump: "pump",
  pipe: "pipe",
  valve: "valve",
  checkValve: "check valve",
  vent: "vent",
  spillway: "spillway",
  note: "note",
};
