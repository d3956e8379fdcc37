/** Each bound of a finding, by drawings a percent or a millimetre on either side of it, from values worked out by hand.
 * The flow is set by a pump whose curve stands all but upright at it, so that it is known without the solver. Bounds:
 * the design notes, sections 2, 4, 6 and 10, the document's format (2 %),
 * or common practice as said beside each rule. */
import { describe, expect, it } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import type { Part, PartId, Section } from "../../hydraulics/document/section.ts";
import type { Finding } from "../../hydraulics/findings/finding.ts";
import { flushPipe, flushValve, pipe, pond, pump, returnPipe, section, vent, vessel } from "../support/builders.ts";

const g = 9.80665;
const area = (bore: number) => (Math.PI * bore ** 2) / 4;
const base = [pond(), vessel(), pump(), pipe(), vent(), returnPipe(), flushPipe(), flushValve()];
const yard = (parts: readonly Part[], without: readonly string[] = []): Section =>
  section([...base.filter(({ id }) => !without.includes(id) && !parts.some((part) => part.id === id)), ...parts]);
/** A pump that gives this flow, less a ten-thousandth at most, against up to 9.9 m. */
const gives = (flow: number, given: Parameters<typeof pump>[0] = {}) =>
  pump({
    watts: 500,
    ...given,
    curve: [
      [0, 10],
      [flow * 0.9999, 9.9],
      [flow, 0],
    ],
  });
const found = (drawing: Section): readonly Finding[] => assess(drawing, { quick: true }).findings;

interface Bound {
  readonly says: string;
  readonly code: string;
  readonly part: string;
  /** drawn a little beyond the bound, and a little short of it */
  readonly beyond: () => Section;
  readonly short: () => Section;
  /** what the sentence says beyond, where the code itself does not turn */
  readonly words?: RegExp;
  readonly severity?: Finding["severity"];
}

/** At so many times a value on either side of it. */
const about = (value: number, draw: (value: number) => Section, off = 0.01) => ({
  beyond: () => draw(value * (1 + off)),
  short: () => draw(value * (1 - off)),
});
const below = (value: number, draw: (value: number) => Section, off = 0.01) => about(value, draw, -off);

const supply = area(0.034);
const tub = (Math.PI * 0.9 ** 2) / 4;
const gross = tub * 0.75;
/** Without the vent, which spills where the line is under pressure,
 * and with a return so steep that its mouth controls. */
const steep = returnPipe({ route: [[2.7, 0.3]] });
const flowing = (flow: number) => yard([gives(flow), steep], ["vent"]);
const gulping = (flow: number) => yard([gives(flow), returnPipe({ route: [[2.7, 0.3]], bore: 0.045 })], ["vent"]);

/** m³/s that the return of 67.8 mm takes with the water at +0.70, by its submerged inlet:
 * HW/D = c·X² + Y with X = 1.811·Q/(A·√D), c 0.0398, Y 0.67 (FHWA HDS-5). */
const headwater = (0.7 - (0.6 - 0.0339)) / 0.0678;
const capacity = (Math.sqrt((headwater - 0.67) / 0.0398) * area(0.0678) * Math.sqrt(0.0678)) / 1.811;

/** A return whose level run falls by so much a metre over its 0.9 m, and the flow that fills it to 0.75 of its bore:
 * 0.9119 of the full one (hydraulic elements of a circular section, from memory), n 0.010. */
const threeQuarters = (fall: number) => ((0.9119 * area(0.0678) * (0.0678 / 4) ** (2 / 3)) / 0.01) * Math.sqrt(fall);
const falling = (fall: number) => yard([gives(threeQuarters(0.005)), returnPipe({ route: [[2.7, 0.6 - 0.9 * fall]] })]);

/** A loop so high over the vessel's water at hardly any flow: what it stands under is that height. */
const loop = (over: number) => {
  const top = restLevel + over;
  return yard(
    [gives(0.00003), pipe({ route: [[0.4, top], [3.3, top], [3.3, 0.1]] })], // biome-ignore format: one line
    ["vent"],
  );
};
/** m: the return's invert at 0.566, and some millimetres for 0.03 L/s */
const restLevel = 0.5705;

/** Another pump that adds a share of the pond's flow of 1 L/s to it, out of a second pond. */
const adding = (share: number) =>
  yard([
    gives(0.001),
    pond({ id: "low", x: 6, waterLevel: 0 }),
    gives(0.001 * share, { id: "second", in: "low", x: 6.4 }),
    pipe({
      id: "more",
      from: { part: "second" },
      to: { part: "pond", x: 2.9, z: 0.1, mouth: "down" },
      route: [[6.4, 0.9], [2.9, 0.9]], // biome-ignore format: one line
      bore: 0.016,
    }),
  ]);

/** Hazen-Williams' factor at which a 34 mm supply at 1 m/s loses just 15 % less than by Darcy-Weisbach with Colebrook
 * (roughness 0.0015 mm, ν 1.1385e-6 m²/s at 15 °C). */
const apart = (() => {
  let f = 0.02;
  for (let k = 0; k < 50; k++)
    f = (-2 * Math.log10(1.5e-6 / 0.034 / 3.7 + 2.51 / ((0.034 / 1.1385e-6) * Math.sqrt(f)))) ** -2;
  const darcy = f / 0.034 / (2 * g);
  return ((10.67 * supply ** 1.852 * 1.15) / (darcy * 0.034 ** 4.8704)) ** (1 / 1.852);
})();

/** Its vent's tee so far under the vessel's water, on the leg that falls from +0.70 at `at` 4.1 m. */
const ventUnder = (depth: number) => {
  const { running } = assess(yard([gives(0.0005)], ["vent"]), { quick: true });
  const level = (running.converged && running.vessels.get("vessel" as PartId)?.level) || Number.NaN;
  return yard([gives(0.0005), vent({ on: { pipe: "supply" as PartId, at: 4.1 + 0.7 - (level - depth) } })]);
};

/** Another pump that feeds a second vessel, whose return joins the first one's: half of the flow comes from either. */
const joined = (flow: number) =>
  yard(
    [
      gives(flow / 2),
      steep,
      vessel({ id: "second-vessel", x: 5, baseLevel: 0.2, rimLevel: 0.95 }),
      gives(flow / 2, { id: "second", x: 0.8 }),
      pipe({
        id: "second-supply",
        from: { part: "second" },
        to: { part: "second-vessel", x: 5.4, z: 1, mouth: "down" },
        route: [[0.8, 1.1], [5.4, 1.1]], // biome-ignore format: one line
      }),
      pipe({
        id: "second-return",
        from: { part: "second-vessel", z: 0.8, mouth: "side" },
        to: { pipe: "return", at: 0.5 },
        route: [[3.2, 0.8]],
        bore: 0.0678,
      }),
    ],
    ["vent"],
  );

/** A second pump whose line joins the supply: half of the flow comes from either. */
const joinedSupply = (flow: number) =>
  yard(
    [
      pipe({ bore: 0.051 }),
      gives(flow / 2),
      gives(flow / 2, { id: "second", x: 0.8 }),
      pipe({
        id: "second-supply",
        from: { part: "second" },
        to: { pipe: "supply", at: 2 },
        route: [[0.8, 0.5], [1.2, 0.5]], // biome-ignore format: one line
        bore: 0.051,
      }),
      returnPipe({ bore: 0.15 }),
    ],
    ["vent"],
  );

const bounds: readonly Bound[] = [
  {
    says: "15 % of the friction loss",
    code: "formulas-differ",
    part: "supply",
    ...about(apart, (hazenWilliamsC) => yard([gives(supply), pipe({ hazenWilliamsC })]), 0.004),
  },
  {
    says: "25 °C, no longer near 15",
    code: "formula-range",
    part: "supply",
    words: /far from 15 °C/,
    ...about(25, (waterTemperature) => ({ ...yard([]), site: { waterTemperature } })),
  },
  {
    // The falling leg begins at 4.1 m along the supply, at +0.70.
    says: "the running water, a tee 5 mm under and over it",
    code: "vent-below-water",
    part: "vent",
    beyond: () => yard([gives(0.00003), vent({ on: { pipe: "supply", at: 4.1 + 0.7 - restLevel + 0.005 } })]),
    short: () => yard([gives(0.00003), vent({ on: { pipe: "supply", at: 4.1 + 0.7 - restLevel - 0.005 } })]),
  },
  { says: "1.5 m/s", code: "pipe-fast", part: "supply", ...about(1.5 * supply, flowing) },
  { says: "3 m/s", code: "pipe-fast", part: "supply", words: /over 3 m\/s/, ...about(3 * supply, flowing) },
  { says: "0.3 m/s", code: "pipe-slow", part: "supply", ...below(0.3 * supply, flowing) },
  { says: "1.5 m/h", code: "upflow-fast", part: "vessel", ...about((1.5 / 3600) * tub, flowing) },
  { says: "10 m/h", code: "upflow-fast", part: "vessel", severity: "warning", ...about((10 / 3600) * tub, flowing) },
  { says: "3 volumes an hour", code: "turnover-off", part: "vessel", ...below((3 / 3600) * gross, flowing) },
  { says: "12 volumes an hour", code: "turnover-off", part: "vessel", ...about((12 / 3600) * gross, flowing) },
  {
    says: "a tenth of the pond",
    code: "vessel-small",
    part: "vessel",
    ...about((10 * gross) / 6, (depth) => yard([pond({ bedLevel: 0.01 - depth })])),
  },
  {
    says: "one and a half times the flow",
    code: "return-margin-low",
    part: "vessel",
    ...about(capacity / 1.5, flowing),
  },
  {
    says: "the flow itself",
    code: "return-margin-low",
    part: "vessel",
    severity: "failure",
    ...about(capacity, flowing),
  },
  {
    says: "the supply's bore",
    code: "return-smaller-than-supply",
    part: "vessel",
    ...below(0.034, (bore) => yard([returnPipe({ bore })]), 0.003),
  },
  {
    says: "Froude 0.3",
    code: "air-gulping",
    part: "return",
    ...about(0.3 * Math.sqrt(g * 0.0678) * area(0.0678), flowing),
  },
  { says: "Froude 1", code: "air-gulping", part: "return", ...below(Math.sqrt(g * 0.045) * area(0.045), gulping) },
  {
    says: "Froude 0.3 where another return has joined",
    code: "air-gulping",
    part: "return",
    ...about(0.3 * Math.sqrt(g * 0.0678) * area(0.0678), joined),
  },
  {
    says: "3 m/s where another supply has joined",
    code: "formula-range",
    part: "supply",
    words: /above 3 m\/s/,
    ...about(3 * area(0.051), joinedSupply),
  },
  { says: "0.75 of the bore", code: "part-full-deep", part: "return", ...below(0.005, falling, 0.02) },
  { says: "7 m of suction", code: "column-parts", part: "supply", ...about(7, loop, 0.005) },
  { says: "4 m of suction", code: "suction-low", part: "supply", ...about(4, loop, 0.005) },
  {
    says: "an intake at the water at +0.01",
    code: "pump-dry",
    part: "pump",
    beyond: () => yard([pump({ z: 0.011 })]),
    short: () => yard([pump({ z: 0.009 })]),
  },
  // δ/(Q + δ) = 0.02 at δ = 0.0204·Q
  { says: "2 % more in than out", code: "pond-rises", part: "pond", ...about(0.02 / 0.98, adding) },
  {
    says: "50 mm, to which Hazen-Williams was tested",
    code: "formula-range",
    part: "supply",
    ...below(0.05, (bore) => yard([pipe({ bore }), gives(2 * area(bore)), returnPipe({ bore: 0.1 })])),
  },
  {
    says: "3 m/s, to which Hazen-Williams was tested",
    code: "formula-range",
    part: "supply",
    words: /m\/s/,
    ...about(3 * area(0.051), (flow) => yard([pipe({ bore: 0.051 }), gives(flow), returnPipe({ bore: 0.15 })])),
  },
  {
    says: "a fifth of the vessel's height over its base",
    code: "no-flush",
    part: "vessel",
    ...about(0.15, (z) => yard([flushPipe({ from: { part: "vessel", z, mouth: "side" }, route: [[5.5, z]] })])),
  },
  {
    says: "a millimetre under the water",
    code: "vent-below-water",
    part: "vent",
    ...about(0.001, ventUnder, 0.2),
  },
  {
    says: "0.15 m over the rim",
    code: "vent-below-rim",
    part: "vent",
    ...below(0.9, (openEndZ) => yard([vent({ openEndZ })]), 0.001),
  },
];

describe("a finding turns at its bound", () => {
  it.each(bounds)("$code: $says", ({ code, part, beyond, short, words, severity }) => {
    const said = (drawing: Section) =>
      found(drawing).some(
        (finding) =>
          finding.code === code &&
          finding.parts.includes(part as PartId) &&
          (words === undefined || words.test(finding.text)) &&
          (severity === undefined || finding.severity === severity),
      );

    expect(said(beyond())).toBe(true);
    expect(said(short())).toBe(false);
  });
});
