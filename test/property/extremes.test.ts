/** Whatever the reader lets through is solved: bores of a millimetre beside bores of two metres, kilometres of pipe. */
import { expect, it } from "vitest";
import { solveRunning } from "../../hydraulics/assess.ts";
import { drawingCount, notFinite } from "../support/drawings.ts";
import { extremeSection } from "./extremeSection.ts";

it("drawings at the bounds of the format come to rest, with numbers only", { timeout: 600_000 }, () => {
  const wrong: string[] = [];
  const count = drawingCount;
  let tried = 0;
  for (let seed = 1; seed <= count; seed++) {
    const section = extremeSection(seed);
    if (!section) continue;
    tried++;
    const { running, state } = solveRunning(section, { quick: true });
    const words = running.converged
      ? notFinite(running, "running")
      : [`${running.parts} after ${state.iterations} steps`];
    if (words.length > 0) wrong.push(`extremeSection(${seed}): ${words.join("; ")}`);
  }

  expect(tried).toBeGreaterThan(0.9 * count);
  expect(wrong).toEqual([]);
});
