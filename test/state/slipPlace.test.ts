import { expect, it } from "vitest";
import { type Box, slipPlace } from "../../editor/panels/slipPlace.ts";

const free: Box = { left: 40, top: 60, right: 1400, bottom: 660 };
const run: Box = { left: 100, top: 176, right: 1300, bottom: 184 };

it("a leader does not run along the pipe that it speaks of, wherever on it one pressed", () => {
  for (const x of [110, 300, 700, 1100, 1290]) {
    const { leader } = slipPlace({ anchor: [x, 180], keepClear: [run], itself: [run], free, width: 300 });

    if (!leader) throw new Error("the slip lies on its own pipe");
    expect(Math.abs(leader[0][1] - 180)).toBeGreaterThan(20);
  }
});

it("a slip grows to the foot of the sheet where nothing lies under it, and to the next thing where something does", () => {
  const wish = { anchor: [1200, 90] as const, itself: [], free, width: 300 };
  const alone = slipPlace({ ...wish, keepClear: [] });
  const shelf: Box = { left: 40, top: 560, right: 1400, bottom: 600 };
  const over = slipPlace({ ...wish, keepClear: [shelf] });

  expect(alone.top + alone.maxHeight).toBe(free.bottom);
  expect(over.top + over.maxHeight).toBeLessThanOrEqual(shelf.top);
  expect(over.maxHeight).toBeGreaterThanOrEqual(400);
});
