/** What a report says of given results, whatever the engine would find. */
import { describe, expect, it } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import { formatTime } from "../../hydraulics/document/formatTime.ts";
import type { PartId } from "../../hydraulics/document/section.ts";
import type { Finding } from "../../hydraulics/findings/finding.ts";
import type { CutVessel, PowerCut } from "../../hydraulics/powerCut/powerCut.ts";
import type { Assessment } from "../../hydraulics/report/assessment.ts";
import { columns } from "../../hydraulics/report/columns.ts";
import { reportJson } from "../../hydraulics/report/json.ts";
import { reportPage } from "../../hydraulics/report/page.ts";
import { plain, plainJson } from "../../hydraulics/report/plain.ts";
import { percent, shown } from "../../hydraulics/report/shown.ts";
import { reportText } from "../../hydraulics/report/text.ts";
import { isSound, verdictOf } from "../../hydraulics/report/verdict.ts";
import type { RunningState, VesselReading } from "../../hydraulics/solver/running.ts";
import { loopedSupply, pond, section, vessel } from "../support/builders.ts";

const id = (text: string): PartId => text as PartId;

const reading: VesselReading = {
  level: 0.61,
  freeboard: 0.14,
  overtops: false,
  overflow: 0,
  inflow: 0.001,
  returnCapacity: 0.003,
  returnMargin: 3,
  control: "inlet",
  upflow: 0.0015,
  mediaLoss: 0.0004,
  waterVolume: 0.3,
  grossVolume: 0.45,
  filledMass: 700,
  turnover: 6,
  retention: 300,
  wettedSurface: 40,
  settlingDiameter: 1e-4,
  restingLevel: 0.57,
};
const running = (vessels: Record<string, VesselReading> = { vessel: reading }): RunningState => ({
  converged: true,
  pumps: new Map(),
  pipes: new Map(),
  vents: new Map(),
  ponds: new Map(),
  spillways: new Map(),
  vessels: new Map(Object.entries(vessels).map(([name, each]) => [id(name), each])),
  iterations: 5,
  residual: { balance: 1e-12, loss: 1e-9 },
});

const held: CutVessel = {
  verdict: "held",
  heldBy: "geometry",
  startLevel: 0.61,
  finalLevel: 0.57,
  highestLevel: 0.61,
  restingLevel: 0.57,
  litresOut: 20,
  overtops: false,
  timeToMouth: null,
  reason: "It stands.",
};
const cut = (vessel: CutVessel): PowerCut => ({
  settled: true,
  duration: 3600,
  lostToGround: 0,
  vessels: new Map([[id("vessel"), vessel]]),
  ponds: new Map(),
  vents: new Map(),
  events: [],
  history: { times: [0], levels: new Map(), flows: new Map() },
  balanceError: 0,
  columns: new Map(),
  failedAt: null,
});

const finding = (severity: Finding["severity"], text: string): Finding => ({
  code: "x",
  severity,
  parts: [id("vessel")],
  text,
  remedy: `Mend ${text}`,
  figures: {},
});

const assessment = (given: Partial<Assessment> = {}): Assessment => ({
  running: running(),
  powerCut: cut(held),
  starts: null,
  findings: [],
  faults: [],
  ...given,
});
const notConverged: Assessment["running"] = {
  converged: false,
  parts: [id("supply")],
  largestResidual: 0.004,
  iterations: 200,
};

describe("the verdict is the worst that is true", () => {
  it.each<[string, Partial<Assessment>, string, boolean]>([
    ["a vessel held by its geometry", {}, "held", true],
    ["one held by a check valve", { powerCut: cut({ ...held, heldBy: "movingPart" }) }, "held by a moving part", true],
    ["a warning besides", { findings: [finding("warning", "w")] }, "held", true],
    ["a failure besides", { findings: [finding("failure", "f")] }, "fails", false],
    [
      "a vessel that drains",
      { powerCut: cut({ ...held, verdict: "drains", heldBy: "nothing" }), findings: [finding("failure", "f")] },
      "drains",
      false,
    ],
    [
      "a power cut that was not followed to its end",
      { powerCut: { ...cut(held), failedAt: [id("vessel")] } },
      "no answer",
      false,
    ],
    ["a running state that was not found", { running: notConverged, powerCut: null }, "no answer", false],
  ])("%s", (_, given, word, sound) => {
    expect(verdictOf(loopedSupply(), assessment(given)).word).toBe(word);
    expect(isSound(loopedSupply(), assessment(given))).toBe(sound);
  });
});

describe("as JSON", () => {
  it("a running state that was not found has its parts and no numbers of flow", () => {
    const report = reportJson(loopedSupply(), assessment({ running: notConverged, powerCut: cut(held) }));

    expect(report.running).toEqual({ converged: false, parts: ["supply"], largestResidual: 0.004 });
    expect(report.powerCut).toBeNull();
  });

  it("refuses to print a number that is not finite, and names where it stands", () => {
    const broken = assessment({ running: running({ vessel: { ...reading, level: Number.NaN } }) });

    expect(() => reportJson(loopedSupply(), broken)).toThrow("report.running.vessels.vessel.level");
  });

  it("keeps parts apart whose ids name what every object has", () => {
    const report = reportJson(
      section([vessel({ id: "constructor" })]),
      assessment({ running: running({ constructor: reading }) }),
    );

    expect(JSON.parse(JSON.stringify(report)).running.vessels.constructor.level).toBe(0.61);
  });

  it("lists failures before warnings before advice", () => {
    const report = reportJson(
      loopedSupply(),
      assessment({
        findings: [finding("advice", "a"), finding("failure", "b"), finding("warning", "c"), finding("failure", "d")],
      }),
    );

    expect((report.findings as { text: string }[]).map(({ text }) => text)).toEqual(["b", "d", "c", "a"]);
  });
});

describe("in words", () => {
  const textOf = (given: Partial<Assessment>, units: "metric" | "us" = "metric", drawing = loopedSupply()) =>
    reportText(drawing, assessment(given), { units });

  it("says first what it is called and what becomes of it, then why", () => {
    expect(textOf({}).split("\n").slice(0, 4)).toEqual([
      "Test",
      "",
      "HELD: when the power fails, every vessel keeps its water by its geometry.",
      "  Vessel: It stands.",
    ]);
  });

  it("does not praise a vessel that nothing leads to", () => {
    const lone = textOf({}, "metric", section([vessel({ label: "Tub" })]));

    expect(lone).toContain("NOT JOINED: nothing leads to Tub or from it, so there is nothing to judge yet.");
    expect(lone).toContain("Tub: Nothing leads to it or from it: its water only stands.");
    expect(lone).toMatch(/Tub .* not joined\n/);
    expect(lone).not.toMatch(/HELD|It stands|held/);
    expect(isSound(section([vessel()]), assessment())).toBe(true);
  });

  it("says of a vessel beside one that is joined that nothing leads to it", () => {
    const beside = vessel({ id: "spare", label: "Spare tub", x: 9 });
    const both = { ...cut(held), vessels: new Map([...cut(held).vessels, [id("spare"), held] as const]) };
    const drawing = loopedSupply();
    const text = textOf({ powerCut: both }, "metric", {
      ...drawing,
      parts: new Map([...drawing.parts, [beside.id, beside]]),
    });

    expect(text).toContain("HELD: when the power fails, every vessel keeps its water by its geometry.");
    expect(text).toContain("Spare tub: Nothing leads to it or from it");
    expect(text).toContain("Vessel: It stands.");
  });

  it("gives no figure where there is no answer", () => {
    const text = textOf({ running: notConverged, powerCut: null });

    expect(text).toContain("NO ANSWER: the calculation did not settle; concerned: supply.");
    expect(text.slice(0, text.indexOf("Take care"))).not.toMatch(/\d/);
  });

  it("says of a drawing without vessels that nothing fails, not that something is held", () => {
    const text = textOf(
      { running: running({}), powerCut: { ...cut(held), vessels: new Map() } },
      "metric",
      section([pond()]),
    );

    expect(text).toContain("NOTHING FAILS");
    expect(text).not.toContain("HELD");
  });

  it("puts findings worst first, each with what to do", () => {
    const text = textOf({
      findings: [finding("advice", "the third"), finding("failure", "the first"), finding("warning", "the second")],
    });

    expect(text).toMatch(
      /Fails {9}the first\n +→ Mend the first\n {2}Look at this {2}the second\n +→ Mend the second\n {2}Advice {8}the third/,
    );
  });

  it("sets figures in columns with their unit, to the right", () => {
    const text = textOf({});

    expect(text).toContain("          water level  freeboard   comes in  return carries  margin  limited by\n");
    expect(text).toContain("  vessel      0.610 m     140 mm  3,600 L/h      10,800 L/h    3.00   its mouth\n");
  });

  it("shows no control character of a title or label", () => {
    const drawing = { ...section([vessel({ label: "a\u009b2J\nb" })]), title: "t\u001b[2J\u202ex" };

    for (const mark of ["\u001b", "\u009b", "\u202e"]) expect(textOf({}, "metric", drawing)).not.toContain(mark);
    expect(textOf({}, "metric", drawing)).toContain("A 2J b: Nothing leads to it");
  });

  // Bidirectional controls as Unicode Standard Annex 9 lists them, separators, C0 and C1, tags, half of a letter.
  it("shows none in a finding, a step, a fault or a currency either, whatever the document held", () => {
    const marks = [
      ..."\u0007\u001b\u0085\u009b\u061c\u200e\u200f\u2028\u2029\u202a\u202b\u202c\u202d\u202e",
      ..."\u2066\u2067\u2068\u2069\ufeff\u{e0041}",
      "\ud800",
    ];
    const hostile = `pool${marks.join("x")}end`;
    const drawn = loopedSupply();
    const parts = new Map([...drawn.parts].map(([key, part]) => [key, { ...part, label: hostile }]));
    const drawing = { ...drawn, title: hostile, site: { ...drawn.site, currency: hostile, tariff: 0.3 }, parts };
    const assessed = assess(drawing, { quick: true, starts: true, faults: true });

    const said = (["metric", "us"] as const).flatMap((units) => [
      reportText(drawing, assessed, { units }),
      reportPage(drawing, assessed, { units }),
    ]);
    const json = JSON.stringify(reportJson(drawing, assessed), null, 2);

    for (const text of [...said, plainJson(json)]) expect(marks.filter((mark) => text.includes(mark))).toEqual([]);
    expect(JSON.parse(plainJson(json))).toEqual(JSON.parse(json));
  });
});

describe("figures with their units", () => {
  // NIST Handbook 44, appendix C: 1 US gallon = 3.785 411 784 L, 1 ft = 0.3048 m, 1 lb = 0.453 592 37 kg, all exact.
  it.each([
    [shown("flow", 0.003785411784 / 60, "us"), "60.0 gph"],
    [shown("flow", 0.001, "metric"), "3,600 L/h"],
    [shown("flow", 0.4 / 3.6e6, "metric"), "0.4 L/h"],
    [shown("flow", -1e-12, "metric"), "0 L/h"],
    [shown("head", 3.048, "us"), "10.00 ft"],
    [shown("bore", 0.0254, "us"), "1.000 in"],
    [shown("bore", 0.0272, "metric"), "27.2 mm"],
    [shown("volume", 3.785411784, "us"), "1,000 gal"],
    [shown("mass", 453.59237, "us"), "1000 lb"],
    [shown("velocity", 0.3048, "us"), "1.00 ft/s"],
    [shown("upflow", 5 / 3600, "metric"), "5.00 m/h"],
    [shown("level", -0.0001, "metric"), "0.000 m"],
    [formatTime(89), "89 s"],
    [formatTime(3600), "1 h"],
    [formatTime(9000), "2 h 30 min"],
    [percent(0.825), "83 %"],
  ])("%s", (got, wanted) => {
    expect(got).toBe(wanted);
  });
});

it("a column that says nothing is left out", () => {
  expect(
    columns(
      ["", "a", "b"],
      [
        ["x", "", "1"],
        ["yy", "", "22"],
      ],
    ),
  ).toEqual(["     b", "x    1", "yy  22"]);
});

it("plain text is one line", () => {
  expect(plain(" a\r\n\tb\u0007 ")).toBe("a b");
});
