/** Every mend offered removes its finding, and brings no failure: seen again here, from the file that would be saved. */
import { describe, expect, it } from "vitest";
import { type Assessed, assess } from "../../hydraulics/assess.ts";
import { readSection } from "../../hydraulics/document/read.ts";
import type { Part, Section } from "../../hydraulics/document/section.ts";
import { writeSection } from "../../hydraulics/document/write.ts";
import type { Finding } from "../../hydraulics/findings/finding.ts";
import { table } from "../../hydraulics/findings/index.ts";
import { mendsFor, remedies } from "../../hydraulics/mends/index.ts";
import { readDrawing } from "../scenarios/readDrawing.ts";
import { loopedSupply, pump, spillway, valve } from "../support/builders.ts";
import { drawingCount, manyDrawings, nameOf } from "../support/drawings.ts";
import { randomSection } from "../support/randomSection.ts";

function again(section: Section): Assessed {
  const read = readSection(writeSection(section));
  if (!read.ok) throw new Error(`a mend cannot be read back: ${JSON.stringify(read.error[0])}`);
  return assess(read.value, { quick: true });
}

const names = ({ code, parts }: Finding): string => `${code} ${parts[0] ?? ""}`;
const failures = ({ findings }: Assessed): string[] =>
  findings.filter(({ severity }) => severity === "failure").map(names);

/** What is wrong with the mends of one finding of a drawing, in words; and how many there were. */
function faultsOf(section: Section, turn: number): { count: number; wrong: string[] } {
  const before = assess(section, { quick: true });
  const wrong: string[] = [];
  let count = 0;
  const finding = before.findings[turn % Math.max(1, before.findings.length)];
  if (!finding) return { count, wrong };
  for (const { label, section: mended, sideEffect } of mendsFor(section, before, finding)) {
    count++;
    const after = again(mended);
    if (after.findings.some((left) => names(left) === names(finding))) wrong.push(`${names(finding)} stays: ${label}`);
    const fresh = failures(after).filter((name) => !failures(before).includes(name));
    if (fresh.length > 0) wrong.push(`${label} brings ${fresh.join(", ")}`);
    if (label === "" || sideEffect === "" || /NaN|undefined|Infinity/.test(label + sideEffect))
      wrong.push(`says "${label} (${sideEffect})"`);
  }
  return { count, wrong };
}

describe("mends over random drawings", () => {
  // One finding a drawing, another one each time: over a thousand drawings every kind has its turn many times.
  it("each of those offered removes its finding and brings no failure", () => {
    let count = 0;
    let tried = 0;
    const wrong: string[] = [];
    for (const wanted of manyDrawings()) {
      // Larger ones of these hold nothing that small ones do not, and take ten times as long.
      if (wanted.mode === "sensible" && wanted.size > 2) continue;
      tried++;
      const of = faultsOf(randomSection({ ...wanted, seed: wanted.seed + 100 }), wanted.seed);
      count += of.count;
      wrong.push(...of.wrong.map((each) => `${nameOf({ ...wanted, seed: wanted.seed + 100 })}: ${each}`));
    }

    expect(wrong).toEqual([]);
    expect(tried).toBeGreaterThanOrEqual(drawingCount);
    expect(count).toBeGreaterThan(drawingCount / 4);
  }, 600_000);
});

describe("mends of known drawings", () => {
  const labelsOf = (section: Section, code: string): readonly string[] => {
    const before = assess(section, { quick: true });
    const finding = before.findings.find((each) => each.code === code);
    if (!finding) throw new Error(`${section.title} has no ${code}`);
    return mendsFor(section, before, finding).map(({ label }) => label);
  };
  const labels = (drawing: string, code: string): readonly string[] =>
    labelsOf(readDrawing(`../scenarios/${drawing}.json`), code);
  const withParts = (...parts: readonly Part[]): Section => {
    const drawn = loopedSupply();
    return { ...drawn, parts: new Map([...drawn.parts, ...parts.map((part) => [part.id, part] as const)]) };
  };

  it("a breather too low is moved to the top of its line, which rises high enough, or the line is ended over the rim", () => {
    const [moved, ended] = labels("design/low-breather", "vessel-drains");

    expect(moved).toContain("Move the tee of Breather to +0.950");
    expect(ended).toContain("above the rim");
  });

  it("a breather of 3 mm, a third open, is widened and opened", () => {
    expect(labels("design/pinhole-breather", "vessel-drains")[0]).toMatch(
      /^Give Breather a bore of \d+ mm and open it fully$/,
    );
  });

  it("a trough held by its check valve alone gets a high point with a vent, or an air gap", () => {
    const [first, second] = labels("design/cellar-wall", "held-by-moving-part");

    expect(first).toContain("with a vent");
    expect(second).toContain("End supply");
  });

  it("a vessel that runs out by a flush left ajar is mended by shutting it", () => {
    expect(labels("traps/flush-ajar", "vessel-drains")[0]).toMatch(/^Shut /);
  });

  it("an overflow drawn from below is drawn from the level of its own top", () => {
    expect(labels("traps/bottom-draw-fast", "vessel-drains")[0]).toContain("Draw return from +0.550");
  });

  it("a line that never rises over the water gets a high point and a vent, or an air gap", () => {
    const [led, ended] = labels("traps/dry-pump-low-line", "vessel-drains");

    expect(led).toContain("Lead supply over a point");
    expect(ended).toContain("End supply");
  });

  it("a line that rises over the water and has no vent gets one at its top", () => {
    expect(labels("traps/bottom-supply-no-vent", "vessel-drains")[0]).toContain("Put a vent");
  });

  it("a return smaller than the supply is made larger, as sold", () => {
    expect(labels("design/thin-return", "return-smaller-than-supply")[0]).toContain("Make return 31.5 mm wide");
  });

  it("a brim-full pond is run lower, or its rim raised", () => {
    const [lower, rim] = labels("design/mill-pair", "pond-over-rim-in-cut");

    expect(lower).toContain("Run Low pond at a water level");
    expect(rim).toContain("Raise the rim of Low pond");
  });

  it("a vessel without a flush gets one at its base", () => {
    expect(labels("design/low-breather", "no-flush")[0]).toContain("flush pipe");
  });

  it("an intake too near the bed is raised to where a third of the pond stays", () => {
    // 0.81 m of water: a third of it is 0.27 m over the bed at −0.80.
    expect(labelsOf(withParts(pump({ z: -0.7 })), "intake-low")).toEqual(["Raise the intake of pump to −0.530"]);
  });

  it("a throttle that is shut is opened, where the pump delivers nothing", () => {
    expect(labelsOf(withParts(valve({ open: 0 })), "pump-shut-off")[0]).toBe("Open valve");
  });

  it("a sill that spills onto the ground is raised, or led into the pond", () => {
    const [raised, led] = labelsOf(withParts(spillway({ to: "ground", crestZ: 0.6 })), "sill-loses-water");

    expect(raised).toMatch(/^Raise the crest of sill to \+0\.6/);
    expect(led).toBe("Let sill spill into pond");
  });

  it("a vessel without a return gets one, larger than its supply", () => {
    expect(labels("traps/no-outlet", "no-return")[0]).toMatch(/^Draw a return of \d/);
  });

  it("two tubs that are a siphon past their vent get a vent on the branch", () => {
    expect(labels("traps/parallel-tee-past-vent", "vessel-drains")[0]).toContain("on branch at its top, +0.900");
  });

  it("a sump that floods in the cut is built higher", () => {
    expect(labels("traps/sump-floods", "overtops-in-cut")[0]).toContain("Build Sump up to a rim");
  });

  it("a mend never changes the drawing that it was made from", () => {
    const section = readDrawing("../scenarios/design/low-breather.json");
    const before = writeSection(section);
    const assessed = assess(section, { quick: true });

    for (const finding of assessed.findings) mendsFor(section, assessed, finding);

    expect(writeSection(section)).toBe(before);
  });

  it("every code that has remedies is the code of a finding", () => {
    const codes = new Set(table.flatMap((entry) => entry.codes));

    expect([...remedies.keys()].filter((code) => !codes.has(code))).toEqual([]);
  });
});
