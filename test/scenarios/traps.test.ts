import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judgeByHand } from "./judge.ts";
import { readDrawing } from "./readDrawing.ts";
import { type Trap, traps } from "./traps.ts";

const within = (found: number | undefined, [level, tolerance]: readonly [number, number], what: string) => {
  expect(found, what).toBeGreaterThanOrEqual(level - tolerance);
  expect(found, what).toBeLessThanOrEqual(level + tolerance);
};

describe("the judge, fed with levels and ratings by hand", () => {
  it.each(traps.map((trap) => [trap.file, trap] as const))("%s", (_, trap: Trap) => {
    const section = readDrawing(`./traps/${trap.file}.json`);

    const judged = judgeByHand(section, trap);

    for (const [id, vessel] of judged.vessels) {
      expect(vessel.verdict, `${id}: ${trap.says}`).toBe(trap.verdicts[id]);
      expect(vessel.heldBy, `${id}: ${trap.says}`).toBe(trap.heldBy[id]);
      const final = trap.finalLevel?.[id];
      if (final) within(vessel.finalLevel, final, `${id}: ${trap.says}`);
    }
    for (const [id, level] of Object.entries(trap.pondLevel ?? {}))
      within(judged.levels.get(id as never), level, `${id}: ${trap.says}`);
    if (trap.pondOverflows) {
      const ponds = [...section.parts.values()].filter((part) => part.kind === "pond" && judged.overflows.has(part.id));
      expect(
        ponds.map((part) => part.id),
        trap.says,
      ).toEqual(trap.pondOverflows);
    }
    if (trap.lost) within(judged.lostToGround, trap.lost, `lost: ${trap.says}`);
  });

  it("has a line in the table for every drawing", () => {
    const files = readdirSync(new URL("./traps", import.meta.url)).sort();

    expect(files).toEqual(traps.map((trap) => `${trap.file}.json`).sort());
  });
});
