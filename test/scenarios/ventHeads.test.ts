/** The water at a vent's tee stands at its head less what is in its speed, y = H − V²/2g, in the running state and in the
 * power cut, and past the losses that lie before it (design notes, sections 5 to 7: energy equation, from any text on
 * hydraulics). Reckoned by hand beside each case. */
import { describe, expect, it } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import { readSectionValue } from "../../hydraulics/document/read.ts";
import { type PartId, partId } from "../../hydraulics/document/section.ts";

const pond = { id: "pond", kind: "pond", x: 0, width: 4, length: 3, bedLevel: -1, rimLevel: 0.1, waterLevel: 0 };
const tub = (rimLevel: number, media: readonly object[] = []) => ({
  id: "tub",
  kind: "vessel",
  x: 5,
  plan: { shape: "round", diameter: 1 },
  baseLevel: 0,
  rimLevel,
  media,
});
const lift = (curve: readonly (readonly [number, number])[]) => ({
  id: "lift",
  kind: "pump",
  x: 0.5,
  z: -0.7,
  outletBore: 0.032,
  in: "pond",
  curve,
});

const smallLift = lift([
  [0, 3],
  [0.0005, 2.4],
  [0.001, 1.2],
  [0.00125, 0],
]);
const supplyOver = {
  id: "supply",
  kind: "pipe",
  from: { part: "lift" },
  to: { part: "tub", z: 0.95, mouth: "down", x: 5.5 },
  route: [
    [0.5, 1.1],
    [5.5, 1.1],
  ],
  bore: 0.0452,
  material: "pvc",
};

function solved(parts: readonly object[]) {
  const read = readSectionValue({
    format: "holdwater-section",
    version: 1,
    title: "A vent",
    site: { waterTemperature: 15, friction: "hazen-williams" },
    parts,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  const { running, powerCut, findings } = assess(read.value, { quick: true });
  if (!running.converged || !powerCut) throw new Error("it did not converge");
  return { running, powerCut, findings };
}

const vent: PartId = partId("vent");

describe("a hole in the falling leg of a drowned return", () => {
  const { running, findings } = solved([
    pond,
    tub(0.9),
    lift([
      [0, 4.6],
      [0.0006, 4.1],
      [0.0012, 3],
      [0.0018, 1.5],
      [0.0021, 0],
    ]),
    supplyOver,
    {
      id: "return",
      kind: "pipe",
      from: { part: "tub", z: 0.6, mouth: "side" },
      to: { part: "pond", z: -0.5, mouth: "down", x: 3.5 },
      route: [
        [4.6, 0.59],
        [4.6, -0.6],
        [3.5, -0.6],
      ],
      bore: 0.045,
      material: "pvc",
    },
    { id: "vent", kind: "vent", on: { pipe: "return", at: 0.89012498 }, bore: 0.012, openEndZ: 0.1000001 },
  ]);

  it("has the bend above it behind it", () => {
    // Past the hole 1.765 L/s: V²/2g = 0.0628 m, two bends of 0.9, an exit of 1 and 1.90 m at 0.0287 m/m lie before the
    // pond: H = 0.0628 · 2.8 + 0.0546 = 0.2305 m. Above the hole V²/2g = 0.0683 m, and 0.2305 − 0.0683 − 0.100 = 0.062 m.
    expect(running.vents.get(vent)?.pressureHead).toBeCloseTo(0.0622, 3);
  });

  it("would stand higher with the hole closed", () => {
    // All of 1.840 L/s then runs on: 0.0683 · 2.8 + 1.90 · 0.0311 − 0.0683 = 0.182 m.
    const said = findings.find(({ code }) => code === "vent-loses-water");
    expect(said?.figures.stands).toBeCloseTo(0.182, 3);
  });
});

describe("a vent on a line that runs back in the power cut", () => {
  const parts = (openEndZ: number) => [
    pond,
    tub(0.85, [
      { depth: 0.2, grain: 0.05, porosity: 0.45 },
      { depth: 0.25, grain: 0.015, porosity: 0.4 },
    ]),
    smallLift,
    {
      id: "supply",
      kind: "pipe",
      from: { part: "lift" },
      to: { part: "tub", z: 0.1, mouth: "side" },
      route: [
        [0.5, -0.1],
        [4.6, -0.1],
        [4.6, 0.1],
      ],
      bore: 0.0362,
      material: "pvc",
    },
    {
      id: "return",
      kind: "pipe",
      from: { part: "tub", z: 0.6, mouth: "side" },
      to: { part: "pond", z: 0.03, mouth: "down", x: 3.5 },
      route: [[3.5, 0.58]],
      bore: 0.0814,
      material: "pvc",
    },
    { id: "vent", kind: "vent", on: { pipe: "supply", at: 4.5 }, bore: 0.012, openEndZ },
  ];

  // With the vent closed the line runs back with H = 0.534 m at the tee, of which V²/2g is 0.027: water stands at 0.507.
  it.each([
    ["over the water and under its head: nothing runs out", 0.525, false],
    ["under the water: it runs out", 0.49, true],
  ])("ends %s", (_, openEndZ, spills) => {
    const { powerCut } = solved(parts(openEndZ));

    expect(powerCut.lostToGround > 0).toBe(spills);
    expect(powerCut.events.some(({ code }) => code === "ventSpills")).toBe(spills);
  });
});

describe("a return that goes on narrower past a joint", () => {
  const parts = (bores: readonly [number, number]) => [
    pond,
    tub(0.9),
    smallLift,
    supplyOver,
    {
      id: "return",
      kind: "pipe",
      from: { part: "tub", z: 0.6, mouth: "side" },
      to: { open: true, x: 4.2, z: 0.58 },
      bore: bores[0],
      material: "pvc",
    },
    {
      id: "further",
      kind: "pipe",
      from: { pipe: "return", at: Math.hypot(0.8, 0.02) },
      to: { part: "pond", z: 0.05, mouth: "down", x: 3.5 },
      route: [[3.5, 0.57]],
      bore: bores[1],
      material: "pvc",
    },
  ];
  const isFound = (bores: readonly [number, number]): boolean =>
    solved(parts(bores)).findings.some(({ code }) => code === "return-smaller-than-supply");

  it("is as wide as its narrowest piece", () => {
    expect(isFound([0.0678, 0.0362])).toBe(true);
    expect(isFound([0.0362, 0.0678])).toBe(true);
    expect(isFound([0.0678, 0.0678])).toBe(false);
  });
});
