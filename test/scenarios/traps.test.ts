import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { PartId } from "../../hydraulics/document/section.ts";
import { assessed, judgeAfter } from "./assessed.ts";
import { judgeByHand } from "./judgeByHand.ts";
import { readDrawing } from "./readDrawing.ts";
import { type Trap, traps } from "./traps.ts";

const cases = traps.map((trap) => [trap.file, trap] as const);
const drawingOf = (trap: Trap) => readDrawing(`./traps/${trap.file}.json`);

/** m; what a level may be under its expectation */
const under = (tolerance: number): number => Math.min(tolerance, 0.003);

function between(found: number | undefined, [low, high]: readonly [number, number], what: string): void {
  expect(found, what).toBeGreaterThanOrEqual(low);
  expect(found, what).toBeLessThanOrEqual(high);
}

describe("the judge, fed with levels and ratings by hand", () => {
  it.each(cases)("%s", (_, trap) => {
    const section = drawingOf(trap);

    const judged = judgeByHand(section, trap);

    for (const [id, vessel] of judged.vessels) {
      expect(vessel.verdict, `${id}: ${trap.says}`).toBe(trap.verdicts[id]);
      expect(vessel.heldBy, `${id}: ${trap.says}`).toBe(trap.heldBy[id]);
      const final = trap.finalLevel?.[id];
      // The judge knows no columns, so nothing lifts its levels.
      if (final)
        between(vessel.finalLevel, [final[0] - under(final[1]), final[0] + under(final[1])], `${id}: ${trap.says}`);
    }
    for (const [id, [level, off]] of Object.entries(trap.pondLevel ?? {})) {
      between(judged.levels.get(id as PartId), [level - off, level + off], `${id}: ${trap.says}`);
    }
    if (trap.pondOverflows) {
      const ponds = [...section.parts.values()].filter((part) => part.kind === "pond" && judged.overflows.has(part.id));
      expect(
        ponds.map((part) => part.id),
        trap.says,
      ).toEqual(trap.pondOverflows);
    }
    if (trap.lost) between(judged.lostToGround, [trap.lost[0] - trap.lost[1], trap.lost[0] + trap.lost[1]], trap.says);
  });
});

describe("the simulated power cut", () => {
  it.each(cases)("%s", (_, trap) => {
    const result = assessed(drawingOf(trap));
    if (!result) throw new Error("the running state did not converge");
    const { cut } = result;

    expect(cut.failedAt).toBeNull();
    for (const [id, vessel] of cut.vessels) {
      expect(
        Math.abs(vessel.startLevel - (trap.start[id] ?? Number.NaN)),
        `${id} starts at ${vessel.startLevel}`,
      ).toBeLessThan(0.06);
      expect(vessel.verdict, `${id}: ${trap.says}`).toBe(trap.verdicts[id]);
      expect(vessel.heldBy, `${id}: ${trap.says}`).toBe(trap.heldBy[id]);
      expect(vessel.overtops, `${id} runs over`).toBe(trap.overtops?.includes(id) ?? false);
      const final = trap.finalLevel?.[id];
      if (final) between(vessel.finalLevel, [final[0] - under(final[1]), final[0] + final[1]], `${id}: ${trap.says}`);
    }
    for (const [id, vent] of cut.vents) expect(vent.rating, `${id}: ${vent.airToWater}`).toBe(trap.vents?.[id]);
    for (const [id, [level, off]] of Object.entries(trap.pondLevel ?? {})) {
      between(cut.ponds.get(id as PartId)?.finalLevel, [level - off, level + off], `${id}: ${trap.says}`);
    }
    if (trap.pondOverflows)
      expect(
        [...cut.ponds].filter(([, pond]) => pond.overflows).map(([id]) => id),
        trap.says,
      ).toEqual(trap.pondOverflows);
    if (trap.lost) between(cut.lostToGround, [trap.lost[0] - trap.lost[1], trap.lost[0] + trap.lost[1]], trap.says);
  });
});

describe("the judge, fed from the running state, and the simulation", () => {
  it.each(cases)("%s", (_, trap) => {
    const section = drawingOf(trap);
    const result = assessed(section);
    if (!result) throw new Error("the running state did not converge");

    const judged = judgeAfter(section, result);

    for (const [id, vessel] of result.cut.vessels) {
      const by = judged.vessels.get(id);
      if (!by) throw new Error(`no verdict on ${id}`);
      expect(by.verdict, `${id}: ${by.binding.part} ${by.binding.why}`).toBe(vessel.verdict);
      expect(by.heldBy, id).toBe(vessel.heldBy);
      expect(by.restingLevel, id).toBeCloseTo(vessel.restingLevel, 6);
      if (by.applies) between(vessel.finalLevel, [by.finalLevel - 0.001, by.finalLevel + by.columns + 0.001], id);
    }
  });
});

describe("the table of traps", () => {
  it("has a line for every drawing", () => {
    const files = readdirSync(new URL("./traps", import.meta.url)).sort();

    expect(files).toEqual(traps.map((trap) => `${trap.file}.json`).sort());
  });
});
