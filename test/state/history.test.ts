import { describe, expect, it } from "vitest";
import { moveParts } from "../../editor/state/actions/moveParts.ts";
import { setTitle } from "../../editor/state/actions/setField.ts";
import { createDesk } from "../../editor/state/desk.ts";
import { stepLabels } from "../../editor/state/history.ts";
import { writeSection } from "../../hydraulics/index.ts";
import { id, part, yard } from "./yard.ts";

const nudge = (desk: ReturnType<typeof createDesk>) =>
  desk.apply(moveParts(desk.get().section, new Set([id("trough")]), 0.01, 0, { hold: "nudge trough" }));

describe("steps", () => {
  it("an arrow key held down is one step, pressed again a second later another", () => {
    let time = 0;
    const desk = createDesk(() => time, yard());
    for (let i = 0; i < 5; i++) {
      time += 50;
      nudge(desk);
    }
    time += 2000;
    nudge(desk);
    expect(desk.get().history.done.length).toBe(2);

    desk.undo();
    desk.undo();

    expect(writeSection(desk.get().section)).toBe(writeSection(yard()));
    desk.redo();
    expect(part(desk.get().section, "trough", "vessel").x).toBeCloseTo(4.05, 9);
  });

  it("a drag is one step however many moves it had, and a dropped one leaves no trace", () => {
    const desk = createDesk(() => 0, yard());
    const start = desk.get().section;
    for (let i = 1; i <= 30; i++) desk.showPreview(moveParts(start, new Set([id("trough")]), i / 100, 0));
    desk.dropPreview();
    expect(desk.get().section).toBe(start);
    expect(desk.get().history.done.length).toBe(0);

    for (let i = 1; i <= 30; i++) desk.showPreview(moveParts(start, new Set([id("trough")]), i / 100, 0));
    desk.keepPreview();

    expect(stepLabels(desk.get().history)).toEqual(["Move Trough"]);
    expect(part(desk.get().section, "trough", "vessel").x).toBeCloseTo(4.3, 9);
  });

  it("a drag that ends where it began is no step", () => {
    const desk = createDesk(() => 0, yard());
    desk.showPreview(moveParts(desk.get().section, new Set([id("trough")]), 0, 0));
    desk.keepPreview();

    expect(desk.get().history.done.length).toBe(0);
  });

  it("a new step drops what was taken back", () => {
    const desk = createDesk(() => 0, yard());
    desk.apply(setTitle(desk.get().section, "One"));
    desk.apply(setTitle(desk.get().section, "Two"));
    desk.undo();
    desk.apply(setTitle(desk.get().section, "Three"));

    desk.redo();

    expect(desk.get().section.title).toBe("Three");
    desk.goToStep(0);
    expect(desk.get().section.title).toBe("Yard");
    desk.goToStep(2);
    expect(desk.get().section.title).toBe("Three");
  });

  it("undo in the middle of a drag drops the drag", () => {
    const desk = createDesk(() => 0, yard());
    desk.apply(setTitle(desk.get().section, "One"));
    desk.showPreview(moveParts(desk.get().section, new Set([id("trough")]), 1, 0));
    desk.undo();
    desk.keepPreview();

    expect(writeSection(desk.get().section)).toBe(writeSection(yard()));
  });

  it("a chosen part that is undone is no longer chosen", () => {
    const desk = createDesk(() => 0, yard());
    desk.choose([id("trough"), id("gone")]);

    expect([...desk.get().view.selection]).toEqual(["trough"]);
  });

  it("steps taken back to what was saved leave nothing to save", () => {
    const desk = createDesk(() => 0, yard());
    const file = { name: "yard.json", handle: null };
    desk.apply(setTitle(desk.get().section, "One"));
    desk.markSaved(desk.get(), file);
    desk.apply(setTitle(desk.get().section, "Two"));
    expect(desk.get().section).not.toBe(desk.get().saved);

    desk.undo();
    expect(desk.get().section).toBe(desk.get().saved);
    desk.undo();
    expect(desk.get().section).not.toBe(desk.get().saved);
    desk.redo();
    expect(desk.get().section).toBe(desk.get().saved);
    desk.goToStep(0);
    desk.apply(setTitle(desk.get().section, "One"));
    expect(desk.get().section).not.toBe(desk.get().saved);

    desk.open(yard(), file);
    desk.apply(setTitle(desk.get().section, "Three"));
    desk.undo();
    expect(desk.get().section).toBe(desk.get().saved);
  });

  it("a file that was written while the drawing went on holds the drawing as it was", () => {
    const desk = createDesk(() => 0, yard());
    desk.apply(setTitle(desk.get().section, "One"));
    const written = desk.get();
    desk.apply(setTitle(desk.get().section, "Two"));
    desk.markSaved(written, { name: "yard.json", handle: null });
    expect(desk.get().section).not.toBe(desk.get().saved);

    desk.undo();
    expect(desk.get().section).toBe(desk.get().saved);
  });
});
