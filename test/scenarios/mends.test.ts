/** Mends by name: a small drawing, the finding that it raises, the mend that is offered, and the mended drawing
 * assessed anew with its power cut and both its starts: the finding is gone and nothing worse has come. Each changed
 * number has its reason in a sentence.
 *
 * The drawing of the builders: pond 3 m × 2 m, bed at −0.80, water at +0.01; vessel from ±0.00 to its rim at +0.75, its
 * water at about +0.62; supply from the pump over +0.70 down to the vessel's base; return of 67.8 mm from +0.60. */
import { describe, expect, it } from "vitest";
import { type Assessed, assess } from "../../hydraulics/assess.ts";
import { readSection } from "../../hydraulics/document/read.ts";
import type { Part, PartId, Section } from "../../hydraulics/document/section.ts";
import { writeSection } from "../../hydraulics/document/write.ts";
import type { Finding } from "../../hydraulics/findings/finding.ts";
import { table } from "../../hydraulics/findings/index.ts";
import { mendsFor, needsAPerson, remedies, whyNoMend } from "../../hydraulics/mends/index.ts";
import { pipe, pond, pump, returnPipe, spillway, valve, vent, yard } from "../support/builders.ts";
import { pairs } from "./findingPairs.ts";
import { readDrawing } from "./readDrawing.ts";

const whole = { quick: true, starts: true } as const;
const grave = { failure: 0, warning: 1, advice: 2 };

const same = (a: Finding, b: Finding): boolean => a.code === b.code && a.parts[0] === b.parts[0];

function findingOf(of: Assessed, code: string): Finding {
  const found = of.findings.find((each) => each.code === code);
  if (!found) throw new Error(`no ${code} among ${of.findings.map((each) => each.code).join(", ")}`);
  return found;
}

interface Mended {
  readonly label: string;
  readonly section: Section;
  readonly after: Assessed;
  readonly part: (id: string) => Part | undefined;
}

/** The first mend of the first finding of that code whose label begins so, applied as the editor saves it. */
function mended(of: Section, code: string, begins: string): Mended {
  const before = assess(of, whole);
  const finding = findingOf(before, code);
  const offers = mendsFor(of, before, finding);
  const offer = offers.find(({ label }) => label.startsWith(begins));
  if (!offer) throw new Error(`"${begins}" is not among: ${offers.map(({ label }) => label).join(" | ") || "nothing"}`);
  const read = readSection(writeSection(offer.section));
  if (!read.ok) throw new Error(`it cannot be read back: ${JSON.stringify(read.error[0])}`);
  const after = assess(read.value, whole);

  expect(after.findings.filter((left) => same(left, finding))).toEqual([]);
  const worse = after.findings.filter(
    (now) =>
      (now.severity === "failure" || grave[now.severity] < grave[finding.severity]) &&
      !before.findings.some((was) => same(was, now) && grave[was.severity] <= grave[now.severity]),
  );
  expect(worse).toEqual([]);
  return { label: offer.label, section: read.value, after, part: (id) => read.value.parts.get(id as PartId) };
}

const raises = (of: Section, code: string): boolean => assess(of, whole).findings.some((each) => each.code === code);
const design = (name: string): Section => readDrawing(`./design/${name}.json`);
const trap = (name: string): Section => readDrawing(`./traps/${name}.json`);

describe("a vessel that drains when the power fails", () => {
  it("raise the vent's tee: from +0.40, under the water, to +0.70, the highest that the line has, in the middle of its top", () => {
    // 1.2 m up from the pump to +0.70, then 2.9 m level: its middle lies 2.65 m along the pipe.
    const low = yard({ with: [vent({ on: { pipe: "supply", at: 4.4 }, openEndZ: 1 })] });
    const { label, part, after } = mended(low, "vessel-drains", "Move the tee");

    expect(label).toBe("Move the tee of vent to +0.700, the top of supply");
    expect(part("vent")).toMatchObject({ on: { pipe: "supply", at: 2.65 }, bore: 0.013, openEndZ: 1 });
    expect(after.powerCut?.vessels.get("vessel" as PartId)).toMatchObject({ verdict: "held", heldBy: "geometry" });
  });

  it("widen a vent to a bore: 3 mm takes a quarter of the air it needs, and of the tubes sold 6 mm is not 5 % over, 8 mm is", () => {
    const pinhole = yard({ with: [vent({ bore: 0.003 })] });
    const { label, part, after } = mended(pinhole, "vessel-drains", "Give vent");

    expect(label).toBe("Give vent a bore of 8 mm");
    expect(part("vent")).toMatchObject({ bore: 0.008, on: { at: 4 } });
    expect(after.powerCut?.vents.get("vent" as PartId)?.rating).toBe("ample");
    // The next smaller one that is sold: just ample, with nothing to spare; and one more is too little.
    const six = assess(yard({ with: [vent({ bore: 0.006 })] }), whole).powerCut?.vents.get("vent" as PartId);
    expect(six?.airToWater ?? 0).toBeGreaterThan(1);
    expect((six?.ampleBore ?? 0) * 1.05).toBeGreaterThan(0.006);
    expect(raises(yard({ with: [vent({ bore: 0.004 })] }), "vessel-drains")).toBe(true);
  });

  it("open a vent to a fraction: a quarter open it takes six tenths; half open its passage is 1.9 times that, at 40 % 1.6 times", () => {
    // Section 7 of the design notes: Ae goes with 1/√(1/(0.6·o)² + 0.03·0.3/0.008), the riser being 0.3 m.
    const passage = (open: number) => 1 / Math.sqrt(1 / (0.6 * open) ** 2 + (0.03 * 0.3) / 0.008);
    const throttled = yard({ with: [vent({ bore: 0.008, open: 0.25 })] });
    const { label, part } = mended(throttled, "vessel-drains", "Open vent");
    const air = assess(throttled, whole).powerCut?.vents.get("vent" as PartId)?.airToWater ?? 0;

    expect(label).toBe("Open vent to 50 %");
    expect(part("vent")).toMatchObject({ open: 0.5, bore: 0.008 });
    expect((air * passage(0.5)) / passage(0.25)).toBeGreaterThan(1.05);
    expect((air * passage(0.4)) / passage(0.25)).toBeLessThan(1.05);
    expect(raises(yard({ with: [vent({ bore: 0.008, open: 0.4 })] }), "vessel-drains")).toBe(true);
  });

  it("open a vent fully where a fraction is not enough", () => {
    // 6 mm is ample fully open by less than a tenth, and at 90 % it passes 7 % less:
    // √((1/0.54² + 1.5) / (1/0.6² + 1.5)) = 1.07, the riser being 50 bores long.
    const { label, part } = mended(yard({ with: [vent({ bore: 0.006, open: 0.4 })] }), "vent-marginal", "Open vent");

    expect(label).toBe("Open vent fully");
    expect(part("vent")).not.toHaveProperty("open");
  });

  it("route the supply over a high point with a vent: 0.10 m over the rim at +0.75", () => {
    const low = yard({
      with: [
        pipe({
          route: [
            [0.4, -0.2],
            [3.3, -0.2],
            [3.3, 0.1],
          ],
        }),
      ],
      without: ["vent"],
    });
    const { label, part, section: drawn } = mended(low, "vessel-drains", "Lead supply");
    const supply = part("supply");
    const added = [...drawn.parts.values()].find(({ kind }) => kind === "vent");

    expect(label).toMatch(
      /^Lead supply over a point at \+0\.850, above the rim of vessel, with a vent of [\d.]+ mm there$/,
    );
    expect(Math.max(...(supply?.kind === "pipe" ? (supply.route ?? []) : []).map(([, z]) => z))).toBe(0.85);
    // Its end 0.15 m over the rim, as codes against backflow have it.
    expect(added).toMatchObject({ on: { pipe: "supply" }, openEndZ: 0.9 });
  });

  it("end the supply above the water: 30 mm over the rim at +0.75, facing down, over the vessel", () => {
    const { label, part } = mended(yard({ without: ["vent"] }), "vessel-drains", "End supply");

    expect(label).toBe("End supply at +0.780, above the rim of vessel");
    expect(part("supply")).toMatchObject({ to: { part: "vessel", z: 0.78, mouth: "down" } });
    // The vessel stands from 3.6 to 4.5 m.
    const to = part("supply");
    expect(to?.kind === "pipe" && "x" in to.to ? to.to.x : 0).toBeGreaterThan(3.6);
  });

  it("a vent where there is none: at the line's top, its open end 0.15 m over the rim", () => {
    const { label, section: drawn } = mended(yard({ without: ["vent"] }), "vessel-drains", "Put a vent");

    expect(label).toMatch(/ on supply at its top, \+0\.700$/);
    expect([...drawn.parts.values()].find(({ kind }) => kind === "vent")).toMatchObject({
      on: { pipe: "supply", at: 2.65 },
      openEndZ: 0.9,
    });
  });

  it.each([
    ["a breather too low", design("low-breather"), "Move the tee of Breather to +0.950"],
    ["a breather too low, or an air gap", design("low-breather"), "End supply at "],
    ["a breather of 3 mm, a third open", design("pinhole-breather"), "Give Breather a bore of "],
    ["a flush left ajar", trap("flush-ajar"), "Shut "],
    ["an overflow drawn from below at +0.55", trap("bottom-draw-fast"), "Draw return from +0.550"],
    ["a line that never rises over the water", trap("dry-pump-low-line"), "Lead supply over a point at "],
    ["a line into the base without a vent", trap("bottom-supply-no-vent"), "Put a vent of "],
    ["two tubs that are a siphon past their vent", trap("parallel-tee-past-vent"), "Put a vent of "],
  ])("%s", (_, drawing, begins) => {
    const { after } = mended(drawing, "vessel-drains", begins);

    expect([...(after.powerCut?.vessels.values() ?? [])].map(({ verdict }) => verdict)).not.toContain("drains");
  });

  it("a trough held by its check valve alone gets a high point with a vent, or an air gap", () => {
    for (const begins of ["Lead supply over a point at ", "End supply at "])
      expect(
        mended(design("cellar-wall"), "held-by-moving-part", begins).after.powerCut?.vessels.get("trough" as PartId)
          ?.heldBy,
      ).toBe("geometry");
  });
});

describe("a vent whose open end stands wrong", () => {
  it("move the vent's open end: 0.15 m over the rim at +0.75", () => {
    const { label, part } = mended(yard({ with: [vent({ openEndZ: 0.8 })] }), "vent-below-rim", "Lead the open end");

    expect(label).toBe("Lead the open end of vent up to +0.900");
    expect(part("vent")).toMatchObject({ openEndZ: 0.9, on: { at: 4 } });
  });

  it("move the vent's open end: over the water that stands in it, which ran out at +0.72", () => {
    const { part, after } = mended(yard({ with: [vent({ openEndZ: 0.72 })] }), "vent-loses-water", "Lead the open end");
    const moved = part("vent");
    const { running } = after;
    const head = running.converged ? (running.vents.get("vent" as PartId)?.pressureHead ?? 0) : Number.NaN;

    // 50 mm over it, up to the next millimetre. The tee stands at +0.70.
    expect(moved?.kind === "vent" ? (moved.openEndZ ?? 0) : 0).toBeCloseTo(0.7 + head + 0.05, 2);
    expect(running.converged && running.vents.get("vent" as PartId)?.state).toBe("stands");
  });
});

describe("a return that carries too little", () => {
  it("next larger return that is sold: over 27.2 mm stand 34 mm, which eats the freeboard, and 42.6 mm", () => {
    const thin = yard({ with: [returnPipe({ bore: 0.0272 })] });
    const { label, part } = mended(thin, "return-smaller-than-supply", "Make return");
    const next = assess(yard({ with: [returnPipe({ bore: 0.034 })] }), whole);

    expect(label).toBe("Make return 42.6 mm wide (50, PVC-U metric, SDR 13.6 (PN 16))");
    expect(part("return")).toMatchObject({ bore: 0.0426 });
    expect(findingOf(next, "return-margin-low").severity).toBe("failure");
  });

  it("a return that lets the vessel run over is made larger as well", () => {
    const thin = yard({ with: [returnPipe({ bore: 0.0272 })] });

    expect(mended(thin, "overtops-running", "Make return").part("return")).toMatchObject({ bore: 0.0426 });
  });

  it("lower the return's outlet: at +0.59, 10 mm under its mouth, 23 m of pipe need more fall than that", () => {
    // 53.2 mm: about 4 mm/m at 3,400 L/h (0.94 L/s: 10.67·0.00094^1.852/(150^1.852·0.0532^4.87)), 8 at half as much
    // again: 0.2 m and some fittings. From +0.70, the rim less the freeboard,
    // 0.11 m are too little and 0.21 m about enough.
    const long = yard({
      with: [
        returnPipe({ bore: 0.0532, extraLength: 20, to: { part: "pond", x: 2.7, z: 0.59, mouth: "down" }, route: [] }),
      ],
    });
    const { label, part, after } = mended(long, "return-margin-low", "Bring the outlet");

    expect(label).toBe("Bring the outlet of return down to +0.490");
    expect(part("return")).toMatchObject({ to: { z: 0.49 }, from: { z: 0.6 } });
    expect(after.running.converged && after.running.vessels.get("vessel" as PartId)?.returnMargin).toBeGreaterThan(1.5);
  });

  it("an outlet is never brought under the water that it falls into: +0.01 and 20 mm", () => {
    const low = yard({
      with: [
        returnPipe({ bore: 0.0426, extraLength: 60, to: { part: "pond", x: 2.7, z: 0.1, mouth: "down" }, route: [] }),
      ],
    });
    const before = assess(low, whole);
    const labels = before.findings.flatMap((finding) => mendsFor(low, before, finding).map(({ label }) => label));

    for (const [, level] of labels.join().matchAll(/outlet of return down to ([+−]\d\.\d+)/g))
      expect(Number(level?.replace("−", "-"))).toBeGreaterThanOrEqual(0.03);
  });

  it("the return's mouth is set lower", () => {
    // 42.6 mm from +0.60 wants 64 mm of water over its axis; from 60 mm lower the same stand as much lower.
    const { label, part } = mended(
      yard({ with: [returnPipe({ bore: 0.0426 })] }),
      "return-margin-low",
      "Set the mouth",
    );

    expect(label).toBe("Set the mouth of return to +0.540");
    expect(part("return")).toMatchObject({ from: { z: 0.54 } });
  });

  it("a vessel without a return gets one, larger than its supply", () => {
    expect(mended(trap("no-outlet"), "no-return", "Draw a return").label).toMatch(/^Draw a return of \d/);
  });

  it("a return of a drawn design is made larger, as sold", () => {
    expect(mended(design("thin-return"), "return-smaller-than-supply", "Make return").label).toContain("31.5 mm wide");
  });
});

describe("other findings", () => {
  it("raise the pump's intake: of 0.81 m of water a third is 0.27 m, over the bed at −0.80", () => {
    const { label, part } = mended(yard({ with: [pump({ z: -0.7 })] }), "intake-low", "Raise");

    expect(label).toBe("Raise the intake of pump to −0.530");
    expect(part("pump")).toMatchObject({ z: -0.53 });
  });

  it("add a flush valve at the base: as wide as the return, its invert 5 mm over the base, shut", () => {
    const { label, part } = mended(yard({ without: ["flush", "flush-valve"] }), "no-flush", "Lead a flush pipe");

    expect(label).toBe("Lead a flush pipe of 67.8 mm with a valve out of vessel at its base");
    // 67.8 / 2 + 5 = 38.9 mm, up to the next.
    expect(part("flush")).toMatchObject({
      kind: "pipe",
      bore: 0.0678,
      from: { part: "vessel", z: 0.039, mouth: "side" },
    });
    expect(part("flush-valve")).toMatchObject({ kind: "valve", role: "flush", open: 0, on: { pipe: "flush" } });
  });

  it("a pond that spills over a sill is drawn at the level at which as much leaves as comes", () => {
    const upper = yard({
      without: ["vessel", "vent", "return", "flush", "flush-valve"],
      with: [
        pond({ id: "upper", x: 4, width: 1, length: 1, bedLevel: 0.2, rimLevel: 0.8, waterLevel: 0.6 }),
        spillway({ from: "upper", to: "pond", crestZ: 0.62 }),
        pipe({
          to: { part: "upper", x: 4.5, z: 0.85, mouth: "down" },
          route: [
            [0.4, 0.9],
            [4.5, 0.9],
          ],
        }),
      ],
    });
    const { part, after } = mended(upper, "pond-rises", "Draw upper");
    const flow = after.running.converged ? (after.running.pumps.get("pump" as PartId)?.flow ?? 0) : Number.NaN;
    const drawn = part("upper");

    // Q = 0.6·(2/3)·√(2g)·b·h^1.5 over a sharp crest 0.3 m wide.
    const sheet = (flow / (0.6 * (2 / 3) * Math.sqrt(2 * 9.80665) * 0.3)) ** (2 / 3);
    expect(drawn?.kind === "pond" ? drawn.waterLevel : 0).toBeCloseTo(0.62 + sheet, 4);
  });

  it("a pipe in which the water creeps is made smaller, as sold", () => {
    const { part } = mended(yard({ with: [pipe({ bore: 0.0814 })] }), "pipe-slow", "Make supply");
    const supply = part("supply");

    expect(supply?.kind === "pipe" ? supply.bore : 1).toBeLessThan(0.0814);
  });

  it("a throttle that is shut is opened, where the pump delivers nothing", () => {
    expect(mended(yard({ with: [valve({ open: 0 })] }), "pump-shut-off", "Open valve").part("valve")).toMatchObject({
      open: 1,
    });
  });

  it("a check valve keeps water from running back through a spare pump, and the tub gets what the other one lifts", () => {
    const spare = trap("standby-pump-open");
    const before = assess(spare, whole);
    const { label, part, after } = mended(spare, "pump-passed-backwards", "Put a check valve");
    const flow = ({ running }: Assessed, pump: string) =>
      running.converged ? (running.pumps.get(pump as PartId)?.flow ?? Number.NaN) : Number.NaN;
    const enters = ({ running }: Assessed) => (running.converged ? running.vessels.get("tub" as PartId)?.inflow : null);

    expect(findingOf(before, "pump-passed-backwards").text).toContain("that Pump lifts");
    expect(enters(before)).toBeCloseTo(flow(before, "lift") + flow(before, "lift-b"), 8);
    expect(label).toBe("Put a check valve on joiner");
    expect(part("flap-2")).toMatchObject({ kind: "checkValve", on: { pipe: "joiner" } });
    expect(flow(after, "lift-b")).toBe(0);
    expect(enters(after)).toBeCloseTo(flow(after, "lift"), 8);
    // Both lines shut behind a flap: the tub stays full, by moving parts.
    expect(after.powerCut?.vessels.get("tub" as PartId)).toMatchObject({ verdict: "held", heldBy: "movingPart" });
  });

  it("a sill that spills onto the ground is raised over the water, or led into the pond", () => {
    const spilt = yard({ with: [spillway({ to: "ground", crestZ: 0.6 })] });

    expect(mended(spilt, "sill-loses-water", "Raise the crest").label).toMatch(/^Raise the crest of sill to \+0\.6/);
    expect(mended(spilt, "sill-loses-water", "Let sill").part("sill")).toMatchObject({ to: "pond", crestZ: 0.6 });
  });

  it("a brim-full pond is run lower, or its rim raised", () => {
    const { after } = mended(design("mill-pair"), "pond-over-rim-in-cut", "Run Low pond at a water level of ");

    expect([...(after.powerCut?.ponds.values() ?? [])].some(({ overflows }) => overflows)).toBe(false);
    mended(design("mill-pair"), "pond-over-rim-in-cut", "Raise the rim of Low pond to ");
  });

  it("an end that hangs beside its pond is moved 0.1 m inside the wall, though its place came from the route", () => {
    const beside = yard({
      with: [returnPipe({ to: { part: "pond", z: 0.04, mouth: "down" }, route: [[-1, 0.58]] })],
    });

    expect(mended(beside, "mouth-outside-body", "Move return into pond").part("return")).toMatchObject({
      to: { part: "pond", x: 0.1, z: 0.04, mouth: "down" },
    });
  });

  it("a sump that floods in the cut is built higher", () => {
    mended(trap("sump-floods"), "overtops-in-cut", "Build Sump up to a rim at ");
  });
});

describe("the table of remedies", () => {
  const codes = table.flatMap((entry) => entry.codes);
  /** Drawings for codes whose own pair is past mending by one change. */
  const others: Readonly<Record<string, Section>> = {
    "overtops-running": yard({ with: [returnPipe({ bore: 0.0272 })] }),
    "pipe-slow": yard({ with: [pipe({ bore: 0.0814 })] }),
  };

  it("has every code of the findings once: with remedies, or with why a person must decide", () => {
    const listed = [...remedies.keys(), ...needsAPerson.keys()];

    expect([...listed].sort()).toEqual([...codes].sort());
    expect(new Set(listed).size).toBe(listed.length);
    for (const of of remedies.values()) expect(of.length).toBeGreaterThan(0);
  });

  it("says why in a sentence", () => {
    for (const code of needsAPerson.keys())
      expect(whyNoMend(code)).toMatch(/^No change mends [a-z-]+ by itself: .{30,}\.$/);
    expect(whyNoMend("vessel-drains")).toBeNull();
  });

  // A pond that rises is mended further up.
  it.each([...remedies.keys()].filter((code) => code !== "pond-rises"))("%s is seen to be mended", (code) => {
    const drawings = [...pairs.filter((pair) => pair.code === code).map((pair) => pair.raises), others[code]];
    const labels = drawings.flatMap((drawing) => {
      const before = drawing && assess(drawing, whole);
      if (!drawing || !before) return [];
      const of = before.findings.filter((finding) => finding.code === code);
      return of.flatMap((finding) => mendsFor(drawing, before, finding).map(({ label }) => label));
    });

    expect(labels).not.toEqual([]);
    for (const label of labels) expect(label).toMatch(/^[A-Z][^\n]{8,}$/);
  });
});
