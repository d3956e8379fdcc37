/** The eight drawings of the design notes, with what their README says of them, a sentence each. */
import { describe, expect, it } from "vitest";
import type { PartId } from "../../hydraulics/document/section.ts";
import type { HeldBy, VentRating, Verdict } from "../../hydraulics/powerCut/powerCut.ts";
import { type Assessed, assessed, judgeAfter } from "./assessed.ts";
import { readDrawing } from "./readDrawing.ts";

const drawings = [
  "cellar-wall",
  "courtyard",
  "gallons",
  "low-breather",
  "mill-pair",
  "pinhole-breather",
  "thin-return",
  "two-terraces",
] as const;
type Drawing = (typeof drawings)[number];

const known = new Map<Drawing, { section: ReturnType<typeof readDrawing>; result: Assessed }>();
function of(drawing: Drawing) {
  const before = known.get(drawing);
  if (before) return before;
  const section = readDrawing(`./design/${drawing}.json`);
  const result = assessed(section);
  if (!result) throw new Error(`${drawing} did not converge`);
  const now = { section, result };
  known.set(drawing, now);
  return now;
}
const vessel = (drawing: Drawing, id: string) => must(of(drawing).result.cut.vessels.get(id as PartId));
const reading = (drawing: Drawing, id: string) => must(of(drawing).result.running.vessels.get(id as PartId));
const ventNow = (drawing: Drawing, id: string) => must(of(drawing).result.running.vents.get(id as PartId));
const pond = (drawing: Drawing, id: string) => must(of(drawing).result.cut.ponds.get(id as PartId));
const rating = (drawing: Drawing, id: string): VentRating =>
  must(of(drawing).result.cut.vents.get(id as PartId)).rating;
function must<T>(value: T | undefined): T {
  if (value === undefined) throw new Error("no such part");
  return value;
}

describe("the eight drawings while the pumps run", () => {
  it("courtyard: the return carries well over one and a half times the flow; water stands in the riser, nothing spills", () => {
    expect(reading("courtyard", "tub").returnMargin).toBeGreaterThan(1.5);
    expect(ventNow("courtyard", "breather").state).toBe("stands");
    expect(ventNow("courtyard", "breather").spill).toBe(0);
  });

  it("cellar-wall: the trough keeps its freeboard", () => {
    expect(reading("cellar-wall", "trough").overtops).toBe(false);
    expect(reading("cellar-wall", "trough").freeboard).toBeGreaterThanOrEqual(0.05);
  });

  it("two-terraces: both returns carry what the pump brings", () => {
    expect(reading("two-terraces", "upper").returnMargin).toBeGreaterThan(1);
    expect(reading("two-terraces", "lower").returnMargin).toBeGreaterThan(1);
    expect(reading("two-terraces", "lower").inflow).toBeCloseTo(
      must(of("two-terraces").result.running.pumps.get("lift" as PartId)).flow,
      8,
    );
  });

  it("mill-pair: the high pond gains what the pump brings less what spills over its sill", () => {
    const { running } = of("mill-pair").result;
    const pumped = must(running.pumps.get("lift" as PartId)).flow;
    const spilled = must(running.spillways.get("sill" as PartId)).flow;

    expect(spilled).toBeGreaterThan(0);
    expect(must(running.ponds.get("high" as PartId)).netInflow).toBeCloseTo(pumped - spilled, 8);
  });

  it("thin-return: a 16 mm return cannot carry what a 25 mm supply brings, and the box overtops", () => {
    expect(reading("thin-return", "box").overtops).toBe(true);
    expect(reading("thin-return", "box").returnMargin).toBeLessThan(1);
    expect(must(of("thin-return").result.running.ponds.get("pond" as PartId)).netInflow).toBeLessThan(0);
  });

  it("low-breather: the breather spills onto the ground all day", () => {
    expect(ventNow("low-breather", "breather").state).toBe("spills");
    expect(ventNow("low-breather", "breather").spillsTo).toBe("ground");
  });

  it("pinhole-breather: water stands in the riser", () => {
    expect(ventNow("pinhole-breather", "breather").state).toBe("stands");
  });

  it("gallons: each of two pumps side by side delivers less than its curve's foot", () => {
    for (const id of ["pump-a", "pump-b"]) {
      const flow = must(of("gallons").result.running.pumps.get(id as PartId)).flow;
      expect(flow).toBeGreaterThan(0);
      expect(flow).toBeLessThan(0.00202);
    }
    expect(reading("gallons", "tank").returnMargin).toBeGreaterThan(1);
  });
});

describe("the eight drawings in a power cut", () => {
  const verdicts: readonly (readonly [Drawing, string, Verdict, HeldBy])[] = [
    ["courtyard", "tub", "held", "geometry"],
    ["cellar-wall", "trough", "held", "movingPart"],
    ["two-terraces", "upper", "held", "geometry"],
    ["two-terraces", "lower", "held", "geometry"],
    ["mill-pair", "drum", "held", "geometry"],
    ["thin-return", "box", "held", "geometry"],
    ["low-breather", "drum", "drains", "nothing"],
    ["pinhole-breather", "tub", "drains", "nothing"],
    ["gallons", "tank", "held", "geometry"],
  ];
  it.each(verdicts)(
    "%s: the %s is %s by %s, says the simulation and says the judge",
    (drawing, id, verdict, heldBy) => {
      const { section, result } = of(drawing);

      const judged = must(judgeAfter(section, result).vessels.get(id as PartId));

      expect(vessel(drawing, id)).toMatchObject({ verdict, heldBy });
      expect(judged).toMatchObject({ verdict, heldBy });
      expect(judged.restingLevel).toBeCloseTo(vessel(drawing, id).restingLevel, 9);
    },
  );

  /** Levels by hand: the return's mouth less half its bore, unless said. */
  it("courtyard: the tub falls only to its return's invert, 0.46 less half of 57 mm", () => {
    expect(rating("courtyard", "breather")).toBe("ample");
    expect(Math.abs(vessel("courtyard", "tub").finalLevel - 0.4315)).toBeLessThan(0.001);
  });

  it("cellar-wall: with the check valve stuck the trough drains to its low entry, 0.18 less half of 34 mm", () => {
    const { section } = of("cellar-wall");
    const stuck = new Map(section.parts);
    const flap = must(section.parts.get("flap" as PartId));
    if (flap.kind !== "checkValve") throw new Error("the flap is a check valve");
    stuck.set(flap.id, { ...flap, stuckOpen: true });

    const cut = must(assessed({ ...section, parts: stuck })?.cut.vessels.get("trough" as PartId));

    expect(cut.verdict).toBe("drains");
    expect(cut.finalLevel).toBeGreaterThan(0.162);
    // 0.4 m of 34 mm pipe at the entry's level holds 0.36 L: 1.1 mm between the stones of 0.45 × 0.72 m².
    expect(cut.finalLevel).toBeLessThan(0.1645);
  });

  it("two-terraces: the upper drum stops at its step pipe, the lower at its return", () => {
    expect(Math.abs(vessel("two-terraces", "upper").finalLevel - (1.75 - 0.0285))).toBeLessThan(0.001);
    expect(Math.abs(vessel("two-terraces", "lower").finalLevel - (0.92 - 0.0339))).toBeLessThan(0.001);
  });

  it("mill-pair: what comes down overflows the low pond, which stands 30 mm under its rim", () => {
    // 20 mm of sheet on 8.64 m² alone is 0.17 m³; 30 mm of the low pond is 0.11 m³.
    expect(pond("mill-pair", "low").overflows).toBe(true);
    expect(of("mill-pair").result.cut.lostToGround).toBeGreaterThan(0.0672);
    expect(Math.abs(pond("mill-pair", "high").finalLevel - 0.7)).toBeLessThan(0.001);
  });

  it("low-breather: the drum drains to the breather's tee at 0.45 though the breather is ample", () => {
    expect(rating("low-breather", "breather")).toBe("ample");
    // Water out of the loop's legs (1.8 m of 34 mm pipe, 1.6 L) stands 5 mm high between the stones, 0.4 × 0.785 m².
    expect(vessel("low-breather", "drum").finalLevel).toBeGreaterThan(0.449);
    expect(vessel("low-breather", "drum").finalLevel).toBeLessThan(0.456);
  });

  it("pinhole-breather: three tenths of 3 mm are too small; the tub drains to its low entry, 0.08 less half of 34 mm", () => {
    expect(rating("pinhole-breather", "breather")).toBe("tooSmall");
    expect(must(of("pinhole-breather").result.cut.vents.get("breather" as PartId)).ampleBore).toBeGreaterThan(0.003);
    expect(vessel("pinhole-breather", "tub").finalLevel).toBeGreaterThan(0.062);
    // The loop's legs hold 3.1 L at most: 11 mm between the stones of 0.45 × 0.636 m².
    expect(vessel("pinhole-breather", "tub").finalLevel).toBeLessThan(0.075);
  });
});
