/** Figures in the sentences of findings. */
import { expect, test } from "vitest";
import { mmWords } from "../../hydraulics/findings/words.ts";

test.each([
  [0.214, "214 mm"],
  [0.0099, "9.9 mm"],
  [0.000123, "0.12 mm"],
  [0.00004, "0.04 mm"],
  [0.000004, "0.004 mm"],
  [-0.00032, "-0.32 mm"],
  [0, "0 mm"],
  [1e-17, "0 mm"],
])("%d m has the digits that count", (metres, words) => {
  expect(mmWords(metres)).toBe(words);
});
