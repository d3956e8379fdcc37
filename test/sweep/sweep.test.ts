/** A sweep is so many single solves: every row is held against a drawing that was changed by hand and solved alone. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import { readSection } from "../../hydraulics/document/read.ts";
import type { Part, PartId, Pipe, Section, Vessel } from "../../hydraulics/document/section.ts";
import { writeSection } from "../../hydraulics/document/write.ts";
import { sizeSeries } from "../../hydraulics/formulas/sizes.ts";
import { figureChanges } from "../../hydraulics/sweep/compare.ts";
import { numberFields, type SweptField } from "../../hydraulics/sweep/numberFields.ts";
import { sizeVariants, sweep, sweptValues, variantsOf } from "../../hydraulics/sweep/sweep.ts";
import { withNumber } from "../../hydraulics/sweep/withNumber.ts";

const names = ["courtyard-bog", "behind-the-shed", "pump-pit", "side-by-side", "spilling-wall"];
const open = (name: string): Section => {
  const read = readSection(readFileSync(new URL(`../../samples/${name}.json`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(name);
  return read.value;
};
const bog = open("courtyard-bog");
const part = <K extends Part["kind"]>(section: Section, kind: K): Extract<Part, { kind: K }> =>
  [...section.parts.values()].find((each) => each.kind === kind) as Extract<Part, { kind: K }>;
const field = (section: Section, of: Part | null, label: string): SweptField => {
  const found = numberFields(section, of).find((each) => each.label === label);
  if (!found) throw new Error(label);
  return found;
};
/** Changed by hand, without the sweep's own way through the file. */
const changed = <P extends Part>(section: Section, was: P, now: Partial<P>): Section => ({
  ...section,
  parts: new Map<PartId, Part>(section.parts).set(was.id, { ...was, ...now }),
});

test("rows over a bore equal single solves of drawings changed by hand", () => {
  const supply = bog.parts.get("supply" as PartId) as Pipe;
  const rows = [...sweep(variantsOf(bog, field(bog, supply, "Bore"), { from: 0.02, to: 0.05, steps: 3 }), supply.id)];

  expect(rows.map(({ value }) => value)).toEqual([0.02, 0.035, 0.05]);
  for (const row of rows) {
    const { nominal: _, ...bare } = supply;
    const alone = assess(changed(bog, bare as Pipe, { bore: row.value }), { quick: true });
    if (!row.ok || !alone.running.converged) throw new Error("did not converge");
    expect(row.flow).toBe([...alone.running.pumps.values()].reduce((sum, pump) => sum + pump.flow, 0));
    expect(row.velocity).toBe(alone.running.pipes.get(supply.id)?.velocity);
    expect(row.margin).toBe(
      Math.min(...[...alone.running.vessels.values()].map((vessel) => vessel.returnMargin ?? 9e9)),
    );
    expect(row.cost).toBe([...alone.running.pumps.values()][0]?.yearlyCost);
    const cut = [...(alone.powerCut?.vessels.values() ?? [])][0];
    expect(row.verdict).toBe(cut?.verdict === "drains" ? "drains" : cut?.heldBy);
  }
}, 30_000);

test("rows over the sizes of a series equal single solves, and keep name and material", () => {
  const supply = bog.parts.get("supply" as PartId) as Pipe;
  const series = sizeSeries.find(({ name }) => name.startsWith("PE, SDR 11"));
  if (!series) throw new Error("no series");
  const variants = sizeVariants(bog, supply.id, series.name);
  const rows = [...sweep(variants.slice(2, 4), supply.id)];

  expect(variants.map(({ name }) => name)).toEqual(series.sizes.map(({ name }) => name));
  rows.forEach((row, k) => {
    const size = series.sizes[k + 2];
    const alone = assess(changed(bog, supply, { bore: size?.bore ?? 0, material: "pe" }), { quick: true });
    if (!row.ok || !alone.running.converged) throw new Error("did not converge");
    expect(row.flow).toBe([...alone.running.pumps.values()][0]?.flow);
  });
}, 30_000);

test("a range that leaves what a drawing may be shows a gap with the reason, and goes on", () => {
  const bog_ = part(bog, "vessel");
  const rows = [...sweep(variantsOf(bog, field(bog, bog_, "Rim level"), { from: -0.1, to: 0.8, steps: 4 }))];

  expect(rows[0]?.ok).toBe(false);
  expect(rows[0] && !rows[0].ok ? rows[0].reason : "").toMatch(/wanted is .*, found /);
  expect(rows.at(-1)?.ok).toBe(true);
});

test("a sweep can be stopped: the rows that nobody asks for are neither made nor solved", () => {
  const supply = bog.parts.get("supply" as PartId) as Pipe;
  let made = 0;
  const variants = variantsOf(bog, field(bog, supply, "Bore"), { from: 0.02, to: 0.05, steps: 400 }).map((variant) => ({
    ...variant,
    section: () => {
      made++;
      return variant.section();
    },
  }));
  const rows = sweep(variants);

  expect(rows.next().done).toBe(false);
  rows.return(undefined);

  expect(rows.next().done).toBe(true);
  expect(made).toBe(1);
}, 30_000);

test("a vessel that is raised takes its rim, its mouths and their level legs along", () => {
  const bog_ = part(bog, "vessel") as Vessel;
  const lifted = withNumber(bog, field(bog, bog_, "Base level, all of it raised"), bog_.baseLevel + 0.2);
  if (!lifted.ok) throw new Error(lifted.error);

  const now = part(lifted.value, "vessel") as Vessel;
  expect(now.rimLevel - bog_.rimLevel).toBeCloseTo(0.2, 12);
  for (const pipe of bog.parts.values()) {
    if (pipe.kind !== "pipe") continue;
    const after = lifted.value.parts.get(pipe.id) as Pipe;
    for (const side of ["from", "to"] as const) {
      const was = pipe[side];
      const is = after[side];
      if ("part" in was && was.part === bog_.id && "z" in is) expect((is.z ?? 0) - (was.z ?? 0)).toBeCloseTo(0.2, 12);
      else expect(is).toEqual(was);
    }
  }
});

test.each(names)("every number of %s but a route's can be swept, and setting it to itself changes nothing", (name) => {
  const section = open(name);
  const file = JSON.parse(writeSection(section)) as { site: object; parts: { id: string }[] };
  for (const each of [null, ...section.parts.values()]) {
    if (each?.kind === "note") continue;
    const fields = numberFields(section, each);
    const own = each === null ? file.site : file.parts.find(({ id }) => id === each.id);
    const paths = new Set(fields.map(({ path }) => path.join(".")));
    expect(numbersIn(own).filter((path) => !path.startsWith("route.") && !paths.has(path))).toEqual([]);
    for (const one of fields) {
      if (one.value === null) continue;
      const same = withNumber(section, one, one.value);
      expect(same.ok, `${each?.id} ${one.label}`).toBe(true);
    }
  }
});

function numbersIn(value: unknown, path = ""): string[] {
  if (typeof value === "number") return [path];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => numbersIn(each, path === "" ? key : `${path}.${key}`));
}

test("values run evenly from end to end; whole numbers come once", () => {
  expect(sweptValues({ from: 0, to: 1, steps: 5 })).toEqual([0, 0.25, 0.5, 0.75, 1]);
  expect(sweptValues({ from: 0, to: 2, steps: 9 }, true)).toEqual([0, 1, 2]);
  expect(sweptValues({ from: 3, to: 3, steps: 9 })).toEqual([3]);
});

test("two states differ in what follows from a change, and a state does not differ from itself", () => {
  const supply = bog.parts.get("supply" as PartId) as Pipe;
  const wider = changed(bog, supply, { bore: 0.05 });
  const before = assess(bog, { quick: true });
  const after = assess(wider, { quick: true });

  const flow = figureChanges(before, after).find(({ part: id, what }) => id === "pump" && what === "delivers");
  expect(flow?.now as number).toBeGreaterThan(flow?.was as number);
  for (const { was, now } of figureChanges(before, before)) expect(now).toBe(was);
});
