/** The list to buy from, against the drawing itself: lengths by the running state's readings, fittings counted by eye
 * on drawings that are small enough for it. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { solveRunning } from "../../hydraulics/assess.ts";
import type { PartId, Section } from "../../hydraulics/document/section.ts";
import { g } from "../../hydraulics/formulas/gravity.ts";
import { cutFrom } from "../../hydraulics/materials/cutFrom.ts";
import { lossesOf } from "../../hydraulics/materials/lossesOf.ts";
import { materialsList } from "../../hydraulics/materials/materialsList.ts";
import type { MaterialRow } from "../../hydraulics/materials/row.ts";
import { costOf, totalsOf } from "../../hydraulics/materials/totals.ts";
import { designs, drawingsIn, readDrawing, samples, trapped } from "../scenarios/readDrawing.ts";

const drawings = drawingsIn(samples, designs, trapped).map((path): readonly [string, Section] => [
  path,
  readDrawing(path),
]);
const open = (name: string): Section => readDrawing(`${samples}/${name}`);
const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
const group = (rows: readonly MaterialRow[], name: MaterialRow["group"]): readonly MaterialRow[] =>
  rows.filter((row) => row.group === name);

describe.each(drawings)("%s", (_, section) => {
  const rows = materialsList(section);
  const { running } = solveRunning(section, { quick: true });

  test("the list's lengths of pipe are the drawing's", () => {
    if (!running.converged) throw new Error("not solved");
    const pipes = group(rows, "pipe").filter(({ key }) => !key.startsWith("pipe: riser"));

    expect(sum(pipes.map(({ length }) => length ?? 0))).toBeCloseTo(
      sum([...running.pipes.values()].map(({ length }) => length)),
      9,
    );
    for (const { parts, length } of pipes)
      expect(length).toBeCloseTo(sum(parts.map((id) => running.pipes.get(id)?.length ?? 0)), 9);
  });

  test("what is cut and what is left over is what is bought", () => {
    for (const { cutting, length } of group(rows, "pipe")) {
      if (!cutting) continue;
      expect(sum(cutting.pieces.flat())).toBeCloseTo(length ?? 0, 9);
      expect(cutting.count * cutting.stock).toBeCloseTo((length ?? 0) + cutting.offcut, 9);
    }
  });

  test("each pipe's items of loss come to the loss that the solver found", () => {
    if (!running.converged) throw new Error("not solved");
    for (const part of section.parts.values()) {
      if (part.kind !== "pipe") continue;
      const reading = running.pipes.get(part.id);
      // With tees the flow differs along the pipe, and no one velocity bears them all.
      if (!reading || reading.flow === 0) continue;
      if (reading.stretches.some(([, , flow]) => Math.abs(flow - reading.flow) > 1e-9)) continue;
      const k = sum(lossesOf(section, part, reading.flow > 0).map((item) => item.count * item.k));
      const opening = [...section.parts.values()].reduce(
        (head, each) =>
          each.kind === "checkValve" && each.on.pipe === part.id && !each.stuckOpen && reading.flow > 0
            ? head + (each.openingHead ?? 0)
            : head,
        0,
      );
      expect((k * reading.velocity ** 2) / (2 * g) + opening, part.id).toBeCloseTo(reading.fittingLoss, 9);
    }
  });

  test("the stone's litres and kilograms fill the vessels", () => {
    if (!running.converged) throw new Error("not solved");
    for (const [id, reading] of running.vessels) {
      const vessel = section.parts.get(id);
      if (vessel?.kind !== "vessel" || running.vessels.size > 1) continue;
      // The filled weight is stone and water; a litre of the design's water weighs
      // 0.9991 kg at 15 °C (published/water).
      const stone = sum(group(rows, "media").map(({ mass }) => mass ?? 0));
      if (section.site.waterTemperature === undefined || section.site.waterTemperature === 15)
        expect(stone + reading.waterVolume * 999.1).toBeCloseTo(reading.filledMass, -1);
    }
  });
});

test("bends, tees, valves and bulkheads of a small drawing are those that the eye counts", () => {
  const rows = materialsList(open("courtyard-bog.json"));
  const counted = rows.flatMap(({ group: of, what, amount }) =>
    of === "fitting" || of === "valve" || of === "bulkhead" ? [`${amount} ${what}`] : [],
  );

  // Counted on the sheet: the supply turns thrice, the return and the flush once each; each enters by a wall.
  expect(counted).toEqual([
    "3 elbow 90°, 40 mm",
    "1 elbow 90°, 75 mm",
    "1 elbow 90°, 50 mm",
    "1 tee for a breather, 40 mm with a branch of 16 mm",
    "1 ball valve, 50 mm",
    "1 bulkhead fitting, 40 mm",
    "1 bulkhead fitting, 75 mm",
    "1 bulkhead fitting, 50 mm",
  ]);
  // 1.4 m × 0.7 m × 0.15 m of stone with 45 % of voids, 2,650 kg/m³ solid: by hand.
  expect(rows.find(({ what }) => what === "stone, 60 mm")?.mass).toBeCloseTo(0.147 * 0.55 * 2650, 9);
});

test("stock lengths: pieces by hand", () => {
  // 4.1 and 0.9 fill one length of 5, 3.0 and 2.0 another, 1.5 begins a third: from memory, first fit decreasing.
  const cut = cutFrom([3, 1.5, 0.9, 4.1, 2], 5);
  expect(cut.count).toBe(3);
  expect(cut.offcut).toBeCloseTo(15 - 11.5, 12);
  // 12 m out of 5 m: two whole, a rest of 2, two couplings.
  expect(cutFrom([12], 5)).toMatchObject({ count: 3, couplings: 2, offcut: 3 });
  expect(cutFrom([5, 5], 5)).toMatchObject({ count: 2, couplings: 0, offcut: 0 });
  expect(cutFrom([], 5)).toMatchObject({ count: 0, offcut: 0 });
});

test("no length is cut beyond its end, and nothing is lost", () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0.01, max: 30, noNaN: true }), { maxLength: 40 }), (legs) => {
      const cut = cutFrom(legs, 5);
      for (const pieces of cut.pieces) expect(sum(pieces)).toBeLessThan(5 + 1e-6);
      expect(sum(cut.pieces.flat())).toBeCloseTo(sum(legs), 6);
      expect(cut.count).toBeGreaterThanOrEqual(Math.ceil(sum(legs) / 5 - 1e-6));
      expect(cut.count).toBeLessThanOrEqual((11 / 9) * (sum(legs) / 5) * 2 + 1);
    }),
    { seed: 7, numRuns: 200 },
  );
});

test("totals count what has a price and say how much has none", () => {
  const rows = materialsList(open("courtyard-bog.json"));
  const [first, second] = rows as [MaterialRow, MaterialRow];
  const prices = new Map([
    [first.key, 12.5],
    [second.key, 3],
  ]);

  const totals = totalsOf(rows, prices);
  expect(totals.total).toBeCloseTo(12.5 * first.amount + 3 * second.amount, 12);
  expect(totals).toMatchObject({ priced: 2, unpriced: rows.length - 2 });
  expect(costOf(rows[2] as MaterialRow, prices)).toBeNull();
});

test("another stock length changes the number of lengths and not the metres", () => {
  const section = open("courtyard-bog.json");
  const before = materialsList(section).find(({ group: of, priced }) => of === "pipe" && priced === "length");
  if (!before) return;
  const after = materialsList(section, { stock: new Map([[before.key, 1]]) }).find(({ key }) => key === before.key);

  expect(after?.length).toBe(before.length);
  expect(after?.cutting?.count as number).toBeGreaterThan(before.cutting?.count as number);
});

test("two pumps of one kind are two rows: each is bought and priced by itself", () => {
  const section = open("two-pumps.json");
  const pumps = group(materialsList(section), "pump");

  expect(pumps.length).toBe([...section.parts.values()].filter(({ kind }) => kind === "pump").length);
  expect(new Set(pumps.flatMap(({ parts }): readonly PartId[] => parts)).size).toBe(pumps.length);
});
