/** The walk's arithmetic by hand, its heads and margins by solving the drawing that it hands out. */
import { expect, test } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import { readSection } from "../../hydraulics/document/read.ts";
import { partId } from "../../hydraulics/document/section.ts";
import { writeSection } from "../../hydraulics/document/write.ts";
import { walk } from "../../hydraulics/sizing/walk.ts";
import { usualWish, type WalkWish } from "../../hydraulics/sizing/wish.ts";

const wishes: readonly (readonly [string, WalkWish])[] = [
  ["the usual pond", usualWish],
  ["a small pond with hose", { ...usualWish, pondVolume: 2, supplySeries: "Hose, by its bore", lift: 0.3 }],
  ["a large pond, far away", { ...usualWish, pondVolume: 30, distance: 12, turnover: 4, returnSeries: "PVC-U drain" }],
];

test.each(wishes)("%s: vessel and flow are the rules' own arithmetic", (_, wish) => {
  const found = walk(wish);

  expect(found.vesselVolume).toBeCloseTo(wish.pondVolume * wish.vesselShare, 12);
  expect(found.flow * 3600).toBeCloseTo(wish.pondVolume * wish.vesselShare * wish.turnover, 9);
  expect(found.vesselSide ** 2 * wish.vesselHeight).toBeCloseTo(found.vesselVolume, 9);
});

test.each(wishes)(
  "%s: the choice is the cheapest that meets the rules, and the smallest return that does",
  (_, wish) => {
    const found = walk(wish);
    if (!found.supply || !found.back) throw new Error("nothing was chosen");

    for (const other of found.supplies)
      if (other.meets) expect(other.cost as number).toBeGreaterThanOrEqual(found.supply.cost as number);
    expect(found.back.bore).toBeGreaterThan(found.supply.bore);
    expect(found.back.margin as number).toBeGreaterThanOrEqual(1.5);
    for (const other of found.returns) if (other.bore < found.back.bore) expect(other.meets).toBe(false);
  },
);

test.each(wishes)("%s: the drawing that is handed out reads back, delivers the flow and holds its water", (_, wish) => {
  const found = walk(wish);
  if (!found.section) throw new Error("no drawing");
  const read = readSection(writeSection(found.section));
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  const { running, powerCut, findings } = assess(read.value, { quick: true });
  if (!running.converged) throw new Error("not solved");

  // The duty was found with another return; what it changes is the vessel's level by millimetres.
  expect((running.pumps.get(partId("pump"))?.flow ?? 0) / found.flow).toBeGreaterThan(0.97);
  expect((running.pumps.get(partId("pump"))?.flow ?? 0) / found.flow).toBeLessThan(1.03);
  expect(running.vessels.get(partId("filter"))?.returnMargin as number).toBeGreaterThanOrEqual(1.45);
  expect([...(powerCut?.vessels.values() ?? [])].map(({ verdict, heldBy }) => [verdict, heldBy])).toEqual([
    ["held", "geometry"],
  ]);
  expect(findings.filter(({ severity }) => severity === "failure")).toEqual([]);
});

test("dear power asks for a wider supply, dear pipe for a narrower one", () => {
  const bore = (wish: Partial<WalkWish>) => walk({ ...usualWish, ...wish }).supply?.bore ?? 0;

  expect(bore({ tariff: 3 })).toBeGreaterThan(bore({ tariff: 0.03 }));
  expect(bore({ pipePrice: 5000 })).toBeLessThan(bore({ pipePrice: 5 }));
});

test("watts are ρgQH over the efficiency, and a year has 8760 hours", () => {
  const { supply, flow, wish } = walk(usualWish);
  const watts = (999.1 * 9.80665 * flow * (supply?.head ?? 0)) / wish.efficiency;

  expect((supply?.watts ?? 0) / watts).toBeCloseTo(1, 4);
  expect(supply?.yearlyCost).toBeCloseTo(((supply?.watts ?? 0) / 1000) * 8760 * wish.tariff, 9);
});

test("a pond so large that no size will do is said as such, without a drawing", () => {
  const found = walk({ ...usualWish, pondVolume: 2000, supplySeries: "Hose, by its bore" });

  expect(found.supply).toBeNull();
  expect(found.section).toBeNull();
  expect(found.supplies.every(({ why }) => why !== "")).toBe(true);
});
