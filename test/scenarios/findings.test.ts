/** Findings: each code is raised by a drawing and not by its neighbour; every sentence can be read; the design
 * drawings fail where their table says so, and only there. */
import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import type { Part, PartId, Section } from "../../hydraulics/document/section.ts";
import type { Finding } from "../../hydraulics/findings/finding.ts";
import { findingsOf, table } from "../../hydraulics/findings/index.ts";
import {
  checkValve,
  flushPipe,
  flushValve,
  loopedSupply,
  pipe,
  pond,
  pump,
  returnPipe,
  section,
  vent,
  vessel,
  yard,
} from "../support/builders.ts";
import { faultsIn } from "../support/sentences.ts";
import { pairs } from "./findingPairs.ts";
import { readDrawing } from "./readDrawing.ts";

const found = (section: Section): readonly Finding[] => assess(section, { quick: true, starts: true }).findings;
const inDoubt = (section: Section): readonly Finding[] => assess(section).findings;
const failures = (findings: readonly Finding[]) =>
  findings
    .filter(({ severity }) => severity === "failure")
    .map(({ code, parts }) => `${code} ${parts[0] ?? ""}`.trim());

/** Codes that speak of the program, not of a drawing: no drawing raises them, so their rule is asked by hand. */
const ofTheProgram = ["not-converged", "cut-not-converged", "cut-loses-count", "judges-differ"];

describe("each code has a drawing that raises it and a neighbour that does not", () => {
  it.each(pairs)("$code: $says", ({ code, part, raises, neighbour }) => {
    const raised = found(raises).filter((finding) => finding.code === code);
    const beside = found(neighbour).filter((finding) => finding.code === code);

    const about = (finding: Finding) => part === undefined || finding.parts.includes(part as PartId);
    expect(raised.some(about)).toBe(true);
    expect(beside.filter(about)).toEqual([]);
  });

  it("no code of the table is without one", () => {
    const known = new Set([...pairs.map(({ code }) => code), ...ofTheProgram]);

    expect(table.flatMap(({ codes }) => codes).filter((code) => !known.has(code))).toEqual([]);
  });

  it("no pair is about a code that the table does not have, and no code is there twice", () => {
    const codes = table.flatMap(({ codes }) => codes);

    expect(pairs.map(({ code }) => code).filter((code) => !codes.includes(code))).toEqual([]);
    expect(new Set(codes).size).toBe(codes.length);
  });

  it("each rule gives no other codes than those in its line", () => {
    for (const { raises } of pairs) {
      const { running, state, powerCut, starts } = assess(raises, { quick: true, starts: true });
      for (const { codes, rule } of table) {
        for (const { code } of rule({ section: raises, running, state, powerCut, starts }))
          expect(codes).toContain(code);
      }
    }
  });
});

describe("codes of the program itself", () => {
  const section = loopedSupply();
  const { running, state, powerCut } = assess(section, { quick: true });
  const codesOf = (more: Partial<Parameters<typeof findingsOf>[0]>) =>
    findingsOf({ section, running, state, powerCut, ...more }).map(({ code, severity }) => `${severity} ${code}`);

  it("a power cut that ends elsewhere than the rule of levels says is a failure", () => {
    if (!powerCut) throw new Error("the drawing has a power cut");
    const [id, vessel] = [...powerCut.vessels][0] ?? [];
    if (!id || !vessel) throw new Error("the drawing has a vessel");
    const sunk = new Map([[id, { ...vessel, finalLevel: vessel.finalLevel - 0.05 }]]);

    expect(codesOf({ powerCut: { ...powerCut, vessels: sunk } })).toContain("failure judges-differ");
    expect(codesOf({})).not.toContain("failure judges-differ");
  });

  it("a state that was not found is a failure, and nothing else is said of flows", () => {
    const parts = ["supply" as PartId];
    const none = { converged: false, parts, largestResidual: 0.004, iterations: 100 } as const;

    expect(codesOf({ running: none, powerCut: null })).toEqual(["failure not-converged"]);
    expect(codesOf({})).not.toContain("failure not-converged");
  });

  it("a power cut that broke off is a failure, and its verdicts are not repeated", () => {
    if (!powerCut) throw new Error("the working drawing has a power cut");
    const broken = codesOf({ powerCut: { ...powerCut, failedAt: ["supply" as PartId] } });

    expect(broken).toContain("failure cut-not-converged");
    expect(codesOf({ powerCut })).not.toContain("failure cut-not-converged");
  });

  it("water that does not add up to a millionth is a failure", () => {
    if (!powerCut) throw new Error("the working drawing has a power cut");

    expect(codesOf({ powerCut: { ...powerCut, balanceError: 2e-6 } })).toContain("failure cut-loses-count");
    expect(codesOf({ powerCut: { ...powerCut, balanceError: 0.5e-6 } })).not.toContain("failure cut-loses-count");
  });
});

describe("the design drawings fail where their table says so, and only there", () => {
  const expected: Readonly<Record<string, readonly string[]>> = {
    courtyard: [],
    "cellar-wall": [],
    "two-terraces": [],
    gallons: [],
    "mill-pair": ["pond-over-rim-in-cut low"],
    "thin-return": ["overtops-running box", "pond-falls pond"],
    "low-breather": ["vessel-drains drum", "vent-loses-water breather", "pond-falls pond"],
    "pinhole-breather": ["vessel-drains tub"],
  };

  it.each(Object.keys(expected))("%s", (name) => {
    expect(failures(found(readDrawing(`./design/${name}.json`)))).toEqual(expected[name]);
  });

  it("thin-return: the return is smaller than the supply", () => {
    const codes = found(readDrawing("./design/thin-return.json")).map(({ code }) => code);

    expect(codes).toContain("return-smaller-than-supply");
  });

  it("cellar-wall: a warning names the check valve that alone holds the trough", () => {
    const warning = found(readDrawing("./design/cellar-wall.json")).find(({ code }) => code === "held-by-moving-part");

    expect(warning).toMatchObject({ severity: "warning", parts: ["trough", "flap"] });
  });

  it("pinhole-breather: the remedy names the bore that would be ample", () => {
    const small = found(readDrawing("./design/pinhole-breather.json")).find(({ code }) => code === "vent-too-small");

    const bore = small?.figures.ampleBore ?? 0;
    expect(bore).toBeGreaterThan(0.003);
    expect(small?.remedy).toContain(`${Number((bore * 1000).toFixed(1))} mm`);
  });

  it("the working drawing of the builders has no failure", () => {
    expect(failures(found(loopedSupply()))).toEqual([]);
  });
});

describe("how grave a finding is hangs on what is at stake", () => {
  const severityOf = (section: Section, code: string) =>
    found(section).find((finding) => finding.code === code)?.severity;
  const base = loopedSupply();
  const turned = (id: string, change: object): Section => {
    const parts = new Map(base.parts);
    const part = parts.get(id as PartId);
    if (!part) throw new Error(`no part ${id}`);
    parts.set(part.id, { ...part, ...change });
    return { ...base, parts };
  };

  it("a return that eats the freeboard but keeps the water in is a failure, one with a little to spare a warning", () => {
    const eaten = turned("return", { bore: 0.036 });

    expect(found(eaten).map(({ code }) => code)).not.toContain("overtops-running");
    expect(severityOf(eaten, "return-margin-low")).toBe("failure");
    expect(severityOf(turned("return", { bore: 0.045 }), "return-margin-low")).toBe("warning");
  });

  it("a vessel that overtops is said once, not a second time by its margin", () => {
    const codes = found(turned("return", { bore: 0.02 })).map(({ code }) => code);

    expect(codes).toContain("overtops-running");
    expect(codes).not.toContain("return-margin-low");
  });

  it("a pond that falls is a failure where water is lost, a warning where it only stands elsewhere", () => {
    const falls = pairs.find(({ code }) => code === "pond-falls");
    const shifts = pairs.find(({ code }) => code === "pond-rises");
    if (!falls || !shifts) throw new Error("no such pair");

    expect(severityOf(falls.raises, "pond-falls")).toBe("failure");
    expect(severityOf(shifts.raises, "pond-falls")).toBe("warning");
  });

  it("a pond falls by the loss over its surface: 1,026 L/h from 6 m² are 171 mm an hour, 3.06 m³ over the intake last 3 h", () => {
    const falls = pairs.find(({ code }) => code === "pond-falls");
    const figures = found(falls?.raises ?? base).find(({ code }) => code === "pond-falls")?.figures;

    const loss = -(figures?.netInflow ?? 0);
    expect((figures?.rate ?? 0) * 6).toBeCloseTo(-loss, 12);
    // 6 m² from +0.01 down to the intake at −0.50.
    expect(figures?.timeToIntake).toBeCloseTo((6 * 0.51) / loss, 3);
  });

  it("a tee between the outlet and the water is a warning only where the vessel is not held", () => {
    // The outlet stops at +0.566 and the water stands at +0.616:
    // a tee at +0.59 on the falling leg holds it all the same.
    expect(severityOf(turned("vent", { on: { pipe: "supply", at: 4.21 } }), "vent-below-water")).toBe("advice");
    expect(severityOf(turned("vent", { on: { pipe: "supply", at: 4.3 } }), "vent-below-water")).toBe("warning");
  });

  it("a vent that opens under the water on a low line is the way out, and the remedy says so", () => {
    // The line runs level at +0.3, under the water at +0.6; the vent stands on it, open at +0.4.
    const low = new Map(
      turned("supply", {
        route: [
          [0.4, 0.3],
          [3.3, 0.3],
          [3.3, 0.1],
        ],
      }).parts,
    );
    const vent = low.get("vent" as PartId);
    if (vent?.kind !== "vent") throw new Error("the working drawing has a vent");
    low.set(vent.id, { ...vent, on: { pipe: "supply" as PartId, at: 3.6 }, openEndZ: 0.4 });
    low.set("flap" as PartId, { ...checkValve({ on: { pipe: "supply" as PartId, at: 0.5 } }), rank: 99 });
    const drains = found({ ...base, parts: low }).find(({ code }) => code === "vessel-drains");

    expect(drains?.remedy).toMatch(/^Lead the open end of vent higher/);
  });

  it("an open flush is what drains the vessel, and the remedy says so", () => {
    const drains = found(turned("flush-valve", { open: 1 })).find(({ code }) => code === "vessel-drains");

    expect(drains?.remedy).toBe("Shut the flush valve of flush.");
  });
});

describe("figures that an odd drawing must not twist", () => {
  const base = [pond(), vessel(), pump(), pipe(), vent(), returnPipe(), flushPipe(), flushValve()];
  const withParts = (...parts: readonly Part[]): Section =>
    section([...base.filter(({ id }) => !parts.some((part) => part.id === id)), ...parts]);
  const runningOf = (drawing: Section) => {
    const { running } = assess(drawing, { quick: true });
    if (!running.converged) throw new Error("not solved");
    return running;
  };

  it("where all water enters over the stone none rises through it", () => {
    const over = pairs.find(({ code }) => code === "media-bypassed");
    const { vessels } = runningOf(over?.raises ?? section([]));

    expect(vessels.get("vessel" as PartId)).toMatchObject({ upflow: 0, settlingDiameter: null });
    expect(found(over?.raises ?? section([])).map(({ code }) => code)).not.toContain("upflow-fast");
  });

  it("a pump that the flow drives has a negative head, and no efficiency", () => {
    // From the pond down to water 3 m lower, through 50 mm: far past a curve that ends at 0.2 L/s.
    const low = pond({ id: "low", x: 6, bedLevel: -4, rimLevel: -2.9, waterLevel: -3 });
    const weak = pump({
      curve: [
        [0, 1],
        [0.0002, 0],
      ],
    });
    const down = pipe({ to: { part: "low", x: 7, z: -3.5, mouth: "down" }, route: [[7, -0.5]], bore: 0.05 });
    const reading = runningOf(withParts(low, weak, down)).pumps.get("pump" as PartId);

    expect(reading?.head).toBeLessThan(-0.1);
    expect(reading?.efficiency).toBeNull();
    expect(reading?.state).toBe("beyondCurve");
  });

  it("an outlet bore that is off by a power of ten changes no flow", () => {
    const flow = (outletBore: number) => runningOf(withParts(pump({ outletBore }))).pumps.get("pump" as PartId)?.flow;

    expect(flow(0.001)).toBeCloseTo(flow(0.032) ?? Number.NaN, 12);
  });

  it("a pipe that chokes is named where no answer is found", () => {
    // 5 km of head through 10 mm.
    const press = pump({
      outletBore: 0.01,
      curve: [
        [0, 5000],
        [0.05, 0],
      ],
    });
    const narrow = pipe({ bore: 0.01, route: [], to: { part: "vessel", x: 4, z: 0.7, mouth: "down" } });
    const none = found(section([pond(), vessel(), press, narrow, returnPipe({ bore: 0.5 })])).find(
      ({ code }) => code === "not-converged",
    );

    expect(none?.parts).toContain("supply");
    expect(none?.remedy).toBe("Check the bore of pump and supply: more than 70 m/s would run through it.");
  });

  it("in a ring that no water ties to a level the flow is shown and no pressure", () => {
    const ring = pairs.find(({ code, part }) => code === "loose-parts" && part === "ring");
    const { pipes, pumps } = runningOf(ring?.raises ?? section([]));

    expect(pipes.get("ring" as PartId)?.flow).toBeGreaterThan(1e-4);
    expect(pipes.get("ring" as PartId)).toMatchObject({ lowestPressureHead: null, highestPressureHead: null });
    expect(pumps.get("booster" as PartId)?.lowestSuction).toBeNull();
    expect(found(ring?.raises ?? section([])).find(({ code }) => code === "loose-parts")?.text).toContain(
      "turns round",
    );
  });

  it("ribbed hose stands deeper than smooth pipe of the same bore, by its own n", () => {
    const fill = (material: "corrugated" | "pvc") =>
      runningOf(withParts(returnPipe({ material, route: [[2.7, 0.55]] }))).pipes.get("return" as PartId)?.fillRatio;

    expect(fill("corrugated")).toBeGreaterThan((fill("pvc") ?? 1) * 1.4);
  });
});

describe("what is said fits what it is said of", () => {
  const textOf = (of: Section, code: string, part: string) =>
    found(of).find((finding) => finding.code === code && finding.parts[0] === part);

  it("a return that runs fast, without a pump behind it, takes head", () => {
    const low = { from: { part: "vessel", z: 0.2, mouth: "side" }, route: [[2.7, 0.18]] } as const;
    const fast = yard({ with: [returnPipe({ ...low, bore: 0.027 })] });
    const { running } = assess(fast, { quick: true });
    const reading = running.converged ? running.pipes.get("return" as PartId) : undefined;
    const said = textOf(fast, "pipe-fast", "return");

    expect(reading?.velocity).toBeGreaterThan(1.5);
    expect(said?.text).not.toContain("pump");
    expect(said?.figures.loss).toBeCloseTo((reading?.frictionLoss ?? 0) + (reading?.fittingLoss ?? 0), 9);
    expect(said?.text).toContain(`${said?.figures.loss?.toFixed(2)} m of head`);
  });

  it("a pump beside the pond that it is in draws from it, and is moved whole", () => {
    const said = textOf(yard({ with: [pump({ x: -0.2 })] }), "mouth-outside-body", "pump");

    expect(said?.text).toBe("Pump is said to draw from pond, but lies 0.20 m left of its wall.");
    expect(said?.remedy).toBe("Move it into the body that it is to draw from.");
  });
});

describe("every finding can be read", () => {
  const drawings: readonly (readonly [string, () => Section])[] = [
    ...pairs.flatMap(({ code, raises, neighbour }) => [
      [`${code}`, () => raises] as const,
      [`${code}, neighbour`, () => neighbour] as const,
    ]),
    ...["design", "traps"].flatMap((folder) =>
      readdirSync(new URL(folder, import.meta.url))
        .filter((file) => file.endsWith(".json"))
        .map((file) => [`${folder}/${file}`, () => readDrawing(`./${folder}/${file}`)] as const),
    ),
  ];

  it.each(drawings)("%s", (_, draw) => {
    const section = draw();

    expect(inDoubt(section).flatMap((finding) => faultsIn(finding, section))).toEqual([]);
  });

  it("a label of 400 characters does not swell a sentence", () => {
    const base = loopedSupply();
    const parts = new Map([...base.parts].map(([id, part]) => [id, { ...part, label: "m ".repeat(200) }]));

    const swollen = found({ ...base, parts }).filter(({ code }) => code !== "vessel-drains");

    expect(swollen.length).toBeGreaterThan(0);
    for (const { text, remedy } of swollen) expect(Math.max(text.length, remedy.length)).toBeLessThan(300);
  });

  it("the worst come first", () => {
    const order = ["failure", "warning", "advice"];
    const ranks = found(readDrawing("./design/low-breather.json")).map(({ severity }) => order.indexOf(severity));

    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    expect(new Set(ranks).size).toBe(3);
  });
});
