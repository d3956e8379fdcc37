/** What every action must keep: the change is there, undo gives the drawing before it, redo the one after,
 * its patches survive JSON, and the drawing can be written and read again without a difference. */
import { expect } from "vitest";
import { type Changed, type Edit, redoEdit, undoEdit } from "../../editor/state/edit.ts";
import { readSection, type Section, writeSection } from "../../hydraulics/index.ts";

export function checkAction(before: Section, changed: Changed): Section {
  const start = writeSection(before);
  if (!changed.ok) throw new Error(`refused: ${changed.why}`);
  const { section: after, edit } = changed;
  expect(edit, "the action changed nothing").not.toBeNull();
  if (!edit) return after;
  const written = writeSection(after);
  const read = readSection(written);
  if (!read.ok) throw new Error(`not readable: ${JSON.stringify(read.error)}`);
  expect(writeSection(read.value)).toBe(written);

  const undone = undoEdit(after, edit);
  expect(writeSection(undone)).toBe(start);
  expect(writeSection(redoEdit(undone, edit))).toBe(written);

  const byJson = JSON.parse(JSON.stringify(edit)) as Edit;
  expect(writeSection(undoEdit(after, byJson))).toBe(start);
  expect(writeSection(redoEdit(before, byJson))).toBe(written);
  expect(writeSection(before), "the action wrote into the drawing it was given").toBe(start);
  expect(edit.label.length).toBeGreaterThan(3);
  return after;
}

export function checkRefused(changed: Changed): string {
  if (changed.ok) throw new Error("not refused");
  expect(changed.why).toMatch(/^[A-Z].*\.$/s);
  return changed.why;
}
