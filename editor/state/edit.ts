/** The only way a section changes: one edit, named for the list of steps, that carries its own inverse. */
import { applyPatches, type Draft, enableMapSet, enablePatches, type Patch, produceWithPatches } from "immer";
import type { Section } from "../../hydraulics/index.ts";
import type { UnitSystem } from "../sheet/units.ts";

enablePatches();
enableMapSet();

export interface Edit {
  readonly label: string;
  readonly redo: readonly Patch[];
  readonly undo: readonly Patch[];
  /** Edits with the same hold that follow within a second are one step: an arrow key held down. */
  readonly hold?: string;
}

export interface Made {
  readonly section: Section;
  /** null where nothing changed: a click that moves nothing must not cost an undo step */
  readonly edit: Edit | null;
}

/** What an action gives: the changed section, or a refusal in the user's words. */
export type Changed = ({ readonly ok: true } & Made) | Refusal;

export interface Refusal {
  readonly ok: false;
  /** in metric units */
  readonly why: string;
  /** in those that are shown, where it names figures */
  readonly whyIn?: (system: UnitSystem) => string;
}

export function makeEdit(section: Section, label: string, change: (draft: Draft<Section>) => void): Made {
  const [next, redo, undo] = produceWithPatches(section, (draft) => {
    change(draft);
  });
  if (redo.length === 0) return { section, edit: null };
  return { section: next, edit: { label, redo, undo } };
}

export const undoEdit = (section: Section, edit: Edit): Section => applyPatches(section, [...edit.undo]);
export const redoEdit = (section: Section, edit: Edit): Section => applyPatches(section, [...edit.redo]);

/** Two edits told as one; `first` happened before `second`. */
export function joinEdits(first: Edit | null, second: Edit | null): Edit | null {
  if (!first || !second) return first ?? second;
  return { ...first, redo: [...first.redo, ...second.redo], undo: [...second.undo, ...first.undo] };
}
