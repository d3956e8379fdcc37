/** The steps that were taken and the steps that were taken back. It knows nothing about ponds. */
import type { Section } from "../../hydraulics/index.ts";
import { type Edit, joinEdits, redoEdit, undoEdit } from "./edit.ts";

export interface Step {
  readonly edit: Edit;
  /** ms, from whoever commits; only used to tell a held key from two presses */
  readonly time: number;
}

export interface History {
  readonly done: readonly Step[];
  /** the next to be redone stands last */
  readonly undone: readonly Step[];
}

export const noHistory: History = { done: [], undone: [] };

const heldFor = 1000;

export function commit(history: History, edit: Edit | null, time: number): History {
  if (!edit) return history;
  const last = history.done.at(-1);
  if (last && edit.hold !== undefined && last.edit.hold === edit.hold && time - last.time < heldFor) {
    const joined = joinEdits(last.edit, edit) as Edit;
    return { done: [...history.done.slice(0, -1), { edit: joined, time }], undone: [] };
  }
  return { done: [...history.done, { edit, time }], undone: [] };
}

export interface Moved {
  readonly section: Section;
  readonly history: History;
}

export function undo(section: Section, history: History): Moved {
  const step = history.done.at(-1);
  if (!step) return { section, history };
  return {
    section: undoEdit(section, step.edit),
    history: { done: history.done.slice(0, -1), undone: [...history.undone, step] },
  };
}

export function redo(section: Section, history: History): Moved {
  const step = history.undone.at(-1);
  if (!step) return { section, history };
  return {
    section: redoEdit(section, step.edit),
    history: { done: [...history.done, step], undone: history.undone.slice(0, -1) },
  };
}

/** Back or forward until `count` steps are done: a click in the list of steps. */
export function goToStep(section: Section, history: History, count: number): Moved {
  let moved: Moved = { section, history };
  while (moved.history.done.length > count && moved.history.done.length > 0) moved = undo(moved.section, moved.history);
  while (moved.history.done.length < count && moved.history.undone.length > 0)
    moved = redo(moved.section, moved.history);
  return moved;
}

/** Labels of all steps, oldest first, those taken back included. */
export const stepLabels = (history: History): readonly string[] => [
  ...history.done.map((step) => step.edit.label),
  ...history.undone.map((step) => step.edit.label).reverse(),
];
