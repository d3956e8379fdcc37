import { expect, it } from "vitest";
import { restingHand } from "../../editor/canvas/gestures.ts";
import { handNodes } from "../../editor/canvas/handNodes.ts";
import { compose } from "../../editor/scene/picture.ts";
import { drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";
import { paperOfWindow, windows, zoomed } from "../scene/sheets.ts";
import { assessmentOf } from "../support/assessmentOf.ts";

it("each part that the keyboard comes to, or that is chosen, bears a mark in the colour of the focus, not the same one", () => {
  const paper = paperOfWindow(windows.wide);
  for (const file of drawingsIn(samples)) {
    const section = readDrawing(file);
    const { running, powerCut, findings } = assessmentOf(section);
    const transform = zoomed(section, paper, 1);
    const view = { system: "metric", moment: null, transform, paper, headroom: 16 } as const;
    const picture = compose({ section, running, powerCut, findings, view });
    for (const id of section.parts.keys()) {
      const marks = (selection: ReadonlySet<typeof id>, stop: typeof id | null) =>
        handNodes({ section, selection, stop, hand: restingHand, picture }).filter(({ key }) =>
          key.startsWith("chosen "),
        );
      const chosen = marks(new Set([id]), null);
      const come = marks(new Set(), id);
      expect(chosen.length, `${file}: ${id}`).toBeGreaterThan(0);
      expect(come.length, `${file}: ${id}`).toBe(chosen.length);
      expect(come).not.toEqual(chosen);
      // Where it is both, it is shown as chosen.
      expect(marks(new Set([id]), id)).toEqual(chosen);
      expect(marks(new Set(), null)).toEqual([]);
    }
  }
});
