/** For every finding code a drawing that raises it and a neighbour, one number away where a number can do it, that
 * does not. The base is the working drawing of the builders: pond, pump, supply looped over +0.70 with a vent,
 * vessel with its water at about +0.62, return, flush. */
import type { Part, Pipe, Section } from "../../hydraulics/document/section.ts";
import {
  checkValve,
  flushPipe,
  flushValve,
  openEnd,
  pipe,
  pond,
  pump,
  returnPipe,
  section,
  spillway,
  valve,
  vent,
  vessel,
  yard,
} from "../support/builders.ts";
import { readDrawing } from "./readDrawing.ts";

export interface Pair {
  readonly code: string;
  /** the part that the finding must name; absent where it names none */
  readonly part?: string;
  /** what turns, in words */
  readonly says: string;
  readonly raises: Section;
  readonly neighbour: Section;
}

/** One of the base's parts at one value and at another. */
const turned = <V>(
  of: (value: V) => Part | readonly Part[],
  raises: V,
  neighbour: V,
  without: readonly string[] = [],
) => {
  const at = (value: V) => yard({ with: [of(value)].flat() as Part[], without });
  return { raises: at(raises), neighbour: at(neighbour) };
};

/** A pump that lifts 12 m, for lines that reach high. */
const strong = pump({
  curve: [
    [0, 12],
    [0.001, 9],
    [0.002, 0],
  ],
});
/** From 44 mm to 34 for the last 0.6 m down to the base of the vessel; without the vent. */
const narrowing: readonly Part[] = [
  pipe({
    to: openEnd(3.3, 0.7),
    route: [[0.4, 0.7]],
    bore: 0.044,
    extraLength: 0.3,
  }),
  pipe({
    id: "drop",
    from: { pipe: "supply", at: 4.1 },
    route: [],
    to: { part: "vessel", x: 3.65, z: 0.21, mouth: "down" },
    bore: 0.034,
  }),
  vent({ on: { pipe: "supply", at: 3 } }),
];
/** A pump that is off, joined to the supply's riser. */
const withSpare: readonly Part[] = [
  pump({ id: "spare", x: 1, speed: 0 }),
  pipe({
    id: "joiner",
    from: { part: "spare" },
    to: { pipe: "supply", at: 0.4 },
    route: [[1, -0.1]],
  }),
];
const over = (top: number) =>
  pipe({
    route: [
      [0.4, top],
      [3.3, top],
      [3.3, 0.1],
    ],
  });

/** A pump beside the pond on a suction line. */
const beside = (z: number, mouth = -0.6): Part[] => [
  pump({ in: undefined, x: 0.4, z }),
  pipe({
    id: "suction",
    from: { part: "pond", x: 0.4, z: mouth, mouth: "down" },
    to: { part: "pump" },
    route: [],
    bore: 0.044,
  }),
];

/** A pit beside the pond, fed through a pipe, with the pump in it. */
const pit = (bore: number): Part[] => [
  vessel({
    id: "pit",
    x: -1.2,
    plan: { shape: "rectangle", width: 0.8, length: 0.8 },
    baseLevel: -0.8,
    rimLevel: 0.1,
    media: [],
  }),
  pump({ in: "pit", x: -0.6, z: -0.6 }),
  pipe({
    id: "feed",
    from: { part: "pond", z: -0.3, mouth: "side" },
    to: { part: "pit", z: -0.3, mouth: "side" },
    route: [[-0.2, -0.3]],
    bore,
  }),
  pipe({
    route: [
      [-0.6, 0.7],
      [3.3, 0.7],
      [3.3, 0.1],
    ],
  }),
];

/** The pump in a second pond, so that the first one only gains. */
const twoPonds = (speed: number): Part[] => [
  pond({ id: "low", x: 6, waterLevel: 0, rimLevel: 0.05 }),
  pump({ in: "low", x: 6.4, speed }),
  pipe({
    route: [
      [6.4, 0.9],
      [4, 0.9],
    ],
    to: { part: "vessel", x: 4, z: 0.8, mouth: "down" },
  }),
];

/** Two vessels that siphon empty into a small pond. When the power comes back the narrow one is full first, while the
 * pond still stands high and its pump lifts the more. */
const narrowTub = (bore: number): Section =>
  section([
    pond({ width: 1.6, length: 0.5, waterLevel: 0, rimLevel: 0.5 }),
    vessel({ plan: { shape: "round", diameter: 1.2 } }),
    pump(),
    pipe(),
    returnPipe({ to: { part: "pond", x: 1.5, z: 0.51, mouth: "down" }, route: [[1.5, 0.58]] }),
    vessel({ id: "tub", x: -1.2, plan: { shape: "round", diameter: 0.3 }, media: [] }),
    pump({ id: "second", x: 1.2 }),
    pipe({
      id: "riser",
      from: { part: "second" },
      to: { part: "tub", z: 0.1, mouth: "side" },
      route: [
        [1.2, 0.7],
        [-0.7, 0.7],
        [-0.7, 0.1],
      ],
    }),
    returnPipe({
      id: "spout",
      from: { part: "tub", z: 0.6, mouth: "side" },
      to: { part: "pond", x: 0.3, z: 0.51, mouth: "down" },
      route: [[0.3, 0.58]],
      bore,
    }),
  ]);

/** A return drawn from below and led over +0.60. */
const fromBelow = (outlet: number) =>
  returnPipe({
    from: { part: "vessel", z: 0.2, mouth: "side" },
    to: { part: "pond", x: 2.7, z: outlet, mouth: "down" },
    route: [
      [3.4, 0.2],
      [3.4, 0.6],
      [2.7, 0.6],
    ],
  });

/** A pump that draws from a pipe which leads back to its inlet, or elsewhere. */
const ring = (to: Pipe["to"] | { part: string; z?: number; mouth?: "side" }): Part[] => [
  pump({ id: "booster", in: undefined, x: 2.4, z: 0.2 }),
  pipe({ id: "ring", from: { part: "booster" }, to: to as Pipe["to"], route: [[2.4, 1.5]] }),
  ...("part" in to && to.part === "pond"
    ? [pipe({ id: "draw", from: { part: "pond", z: -0.4, mouth: "side" }, to: { part: "booster" }, route: [] })]
    : []),
];

export const pairs: readonly Pair[] = [
  {
    code: "vessel-drains",
    part: "vessel",
    says: "a vent of 2 mm lets the siphon run on, one of 13 mm breaks it",
    ...turned((bore) => vent({ bore }), 0.002, 0.013),
  },
  {
    code: "held-by-moving-part",
    part: "flap",
    says: "with a check valve and a vent of 2 mm only the valve holds the water",
    ...turned((bore) => [vent({ bore }), checkValve()], 0.002, 0.013),
  },
  {
    code: "overtops-running",
    part: "vessel",
    says: "a return of 20 mm does not carry what 34 mm bring",
    ...turned((bore) => returnPipe({ bore }), 0.02, 0.0678),
  },
  {
    code: "pond-over-rim-in-cut",
    part: "pond",
    // 32 L on 6 m² are 5 mm.
    says: "a pond 1 mm under its rim has no room for what comes back",
    ...turned((waterLevel) => pond({ waterLevel }), 0.049, 0.01),
  },
  {
    code: "pond-overflow-near",
    part: "pond",
    says: "a pond 20 mm under its rim keeps 15 mm of it",
    ...turned((waterLevel) => pond({ waterLevel }), 0.03, 0.01),
  },
  {
    code: "overtops-in-cut",
    part: "sump",
    says: "a sump with its rim at −0.30 takes less than the pond gives it, one with its rim over the pond takes all",
    raises: readDrawing("./traps/sump-floods.json"),
    neighbour: readDrawing("./traps/sump-level.json"),
  },
  {
    code: "over-rim-on-restart",
    part: "tub",
    // Running it stands at +0.747 with 33.6 mm and at +0.716 with 36 mm, under a rim at +0.75.
    says: "a narrow tub with hardly any freeboard is full while the pond still stands high",
    raises: narrowTub(0.0336),
    neighbour: narrowTub(0.036),
  },
  {
    code: "pump-dry-on-start",
    part: "pump",
    // The vessel takes 0.19 m³ until its return runs: 32 mm of a pond of 6 m².
    says: "an intake 20 mm under the water is bare before the vessel is full",
    ...turned((z) => pump({ z }), -0.01, -0.5),
  },
  {
    code: "intake-low",
    part: "pump",
    // A third of 0.81 m of water is 0.27 m, so −0.53, and 0.15 m over the bed is −0.65.
    says: "under an intake at −0.60 lies less than a third of the pond, under one at −0.50 more",
    ...turned((z) => pump({ z }), -0.6, -0.5),
  },
  {
    code: "vent-loses-water",
    part: "vent",
    says: "an open end at the tee lies under the 50 mm of water that stand over it",
    ...turned((openEndZ) => vent({ openEndZ }), 0.7, 1),
  },
  {
    code: "open-end-loses-water",
    part: "flush",
    says: "a flush valve left open puts the water on the ground",
    ...turned((open) => flushValve({ open }), 1, 0),
  },
  {
    code: "flush-open",
    part: "flush",
    says: "a flush into the pond left open loses nothing, but empties the vessel",
    ...turned(
      (open) => [
        flushPipe({ to: { part: "pond", x: 2.8, z: 0.02, mouth: "down" }, route: [[2.8, 0.05]] }),
        flushValve({ open }),
      ],
      0.3,
      0,
    ),
  },
  {
    code: "sill-loses-water",
    part: "sill",
    says: "a crest under the water at +0.616 spills onto the ground",
    ...turned((crestZ) => spillway({ to: "ground", crestZ }), 0.6, 0.65),
  },
  {
    code: "pond-falls",
    part: "pond",
    says: "what the sill spills onto the ground is missing in the pond",
    ...turned((crestZ) => spillway({ to: "ground", crestZ }), 0.6, 0.65),
  },
  {
    code: "pond-rises",
    part: "pond",
    says: "a pond that is pumped into from another one, and not out of",
    ...turned(twoPonds, 1, 0, ["vent"]),
  },
  {
    code: "pump-dry",
    part: "pump",
    says: "an intake 10 mm over the water at +0.01",
    ...turned((z) => pump({ z }), 0.02, -0.5),
  },
  {
    code: "pump-dry",
    part: "suction",
    says: "a suction line whose mouth stands over the water",
    ...turned((mouth) => beside(0.3, mouth), 0.03, -0.3, ["vent"]),
  },
  {
    code: "pump-snatches-air",
    part: "pump",
    says: "a pit fed through 16 mm is pumped down to the intake, through 100 mm it is not",
    ...turned(pit, 0.016, 0.1, ["vent"]),
  },
  {
    code: "column-parts",
    part: "supply",
    says: "a loop 8 m over the vessel's water without a vent",
    ...turned((top) => [strong, over(top)], 8.8, 2, ["vent"]),
  },
  {
    code: "suction-low",
    part: "supply",
    says: "a loop 5 m over the vessel's water without a vent",
    ...turned((top) => [strong, over(top)], 5.6, 2, ["vent"]),
  },
  {
    code: "column-parts-in-cut",
    part: "supply",
    says: "the siphon over a loop 8 m up parts at its top",
    ...turned((top) => [strong, over(top)], 8.8, 2, ["vent"]),
  },
  {
    code: "return-margin-low",
    part: "vessel",
    says: "a return of 46 mm carries less than one and a half times the flow",
    ...turned((bore) => returnPipe({ bore }), 0.046, 0.0678),
  },
  {
    code: "return-smaller-than-supply",
    part: "return",
    says: "33 mm out against 34 mm in",
    ...turned((bore) => returnPipe({ bore }), 0.033, 0.035),
  },
  {
    code: "return-smaller-than-supply",
    part: "second",
    // By Q ∝ D^2.63 (Hazen and Williams) two of 26 mm carry as much as one of 33.8, though their areas are those of one
    // of 36.8; two of 27 mm carry as much as one of 35.1.
    says: "two returns of 26 mm, and two of 27, beside a supply of 34",
    ...turned((bore) => [returnPipe({ bore }), returnPipe({ id: "second", bore })], 0.026, 0.027),
  },
  {
    code: "return-smaller-than-supply",
    part: "return",
    // 4.4 m of 44 mm and 0.6 m of 34 lose as much as 5 m of 41.7: (4.4/44^4.87 + 0.6/34^4.87)·D^4.87 = 5.
    says: "a return of 40 mm and one of 42, where the last 0.6 m of a supply of 44 mm are of 34",
    ...turned((bore) => [returnPipe({ bore }), ...narrowing], 0.04, 0.042),
  },
  {
    code: "vent-below-water",
    part: "vent",
    says: "0.2 m down the falling leg the tee is at +0.50, under the water at +0.616",
    ...turned((at) => vent({ on: { pipe: "supply", at } }), 4.3, 4),
  },
  {
    code: "vent-below-rim",
    part: "vent",
    says: "an open end 50 mm over the rim at +0.75, not 150",
    ...turned((openEndZ) => vent({ openEndZ }), 0.8, 0.9),
  },
  {
    code: "vent-marginal",
    part: "vent",
    says: "4 mm take in half of the air that is needed",
    ...turned((bore) => vent({ bore }), 0.004, 0.006),
  },
  {
    code: "vent-too-small",
    part: "vent",
    says: "2 mm take in a tenth of the air that is needed",
    ...turned((bore) => vent({ bore }), 0.002, 0.006),
  },
  {
    code: "may-siphon",
    part: "return",
    says: "a return drawn from below that ends under the pond's water",
    ...turned(fromBelow, -0.2, 0.04),
  },
  {
    code: "cut-not-settled",
    says: "a flush of 1 mm left open would empty the vessel in days",
    ...turned((bore) => [flushPipe({ bore }), flushValve({ open: 1 })], 0.001, 0.045),
  },
  {
    code: "pump-must-be-primed",
    part: "pump",
    says: "a pump 0.29 m over the pond, and one under it",
    ...turned((z) => beside(z), 0.3, -0.3, ["vent"]),
  },
  {
    code: "pump-off-curve",
    part: "pump",
    says: "a curve that ends short of the 0.95 L/s that run",
    ...turned(
      (last) =>
        pump({
          curve: [
            [0, 2.8],
            [0.0004, 2.4],
            [last, 1],
          ],
        }),
      0.0008,
      0.0011,
    ),
  },
  {
    code: "pump-shut-off",
    part: "pump",
    says: "a throttle shut on the supply",
    ...turned((open) => valve({ open }), 0, 1),
  },
  {
    code: "pump-passed-backwards",
    part: "spare",
    says: "a spare pump on a tee of the supply, and the same behind a flap",
    raises: yard({ with: withSpare }),
    neighbour: yard({ with: [...withSpare, checkValve({ on: { pipe: "joiner", at: 0.5 } })] }),
  },
  {
    code: "air-gulping",
    part: "return",
    // Froude 0.3 by hand: V = 0.3·√(9.81·0.09) = 0.282 m/s, 1.79 L/s through 90 mm; 0.88 L/s through 67.8 mm.
    says: "67.8 mm vent themselves up to 0.88 L/s, 90 mm up to 1.79",
    ...turned((bore) => returnPipe({ bore }), 0.0678, 0.09),
  },
  {
    code: "part-full-deep",
    part: "return",
    says: "a run without fall runs full",
    ...turned((z) => returnPipe({ route: [[2.7, z]] }), 0.6, 0.58),
  },
  {
    code: "small-bore-inlet",
    part: "return",
    says: "24 mm are under the 25 at which surface tension counts",
    ...turned((bore) => returnPipe({ bore }), 0.024, 0.026),
  },
  {
    code: "pipe-fast",
    part: "supply",
    says: "a supply of 25 mm",
    ...turned((bore) => pipe({ bore }), 0.025, 0.034),
  },
  {
    code: "pipe-slow",
    part: "supply",
    // 1.2 L/s at most through 80 mm are 0.24 m/s.
    says: "a supply of 80 mm",
    ...turned((bore) => pipe({ bore }), 0.08, 0.034),
  },
  {
    code: "formulas-differ",
    part: "supply",
    says: "a factor of 100 for a pipe as smooth as plastic",
    ...turned((hazenWilliamsC) => pipe({ hazenWilliamsC }), 100, 150),
  },
  {
    code: "formula-range",
    part: "supply",
    says: "a bore under the 50 mm to which Hazen-Williams was tested",
    ...turned((bore) => pipe({ bore }), 0.049, 0.051),
  },
  {
    code: "upflow-fast",
    part: "vessel",
    // 0.95 L/s on 0.64 m² are 5.4 m/h, on 3.1 m² 1.1 m/h.
    says: "a vessel of 0.9 m, and one of 2 m",
    ...turned((diameter) => vessel({ plan: { shape: "round", diameter } }), 0.9, 2),
  },
  {
    code: "nothing-to-solve",
    says: "no pond, vessel or pump",
    raises: section([pond()]),
    neighbour: yard(),
  },
  {
    code: "loose-parts",
    part: "stray",
    says: "a pipe from air to air, and one from the pond",
    ...turned(
      (from: Parameters<typeof pipe>[0] & object) => pipe({ id: "stray", to: openEnd(8, 0.2), route: [], ...from }),
      { from: openEnd(7, 0.3) },
      { from: { part: "pond", z: 0.04, mouth: "side" } },
    ),
  },
  {
    code: "mouth-outside-body",
    part: "pump",
    says: "a pump half a metre beside the pond in which it is said to stand",
    ...turned((x) => pump({ x }), -0.5, 0.4),
  },
  {
    code: "no-return",
    part: "vessel",
    says: "no pipe out of the vessel but the flush",
    raises: yard({ without: ["return"] }),
    neighbour: yard(),
  },
  {
    code: "no-flush",
    part: "vessel",
    says: "a flush 0.4 m over the base leaves the sludge",
    ...turned((z) => flushPipe({ from: { part: "vessel", z, mouth: "side" }, route: [[5.5, z]] }), 0.4, 0.05),
  },
  {
    code: "vessel-small",
    part: "vessel",
    // 0.477 m³ against 6 m² × 0.81 m = 4.86 m³ and 6 m² × 0.61 m = 3.66 m³.
    says: "477 L beside 4,860, and beside 3,660",
    ...turned((bedLevel) => pond({ bedLevel }), -0.8, -0.6),
  },
  {
    code: "turnover-off",
    part: "vessel",
    // 3,418 L/h through 1,508 L and through 477 L.
    says: "2.3 volumes an hour, and 7",
    ...turned((diameter) => vessel({ plan: { shape: "round", diameter } }), 1.6, 0.9),
  },
  {
    code: "stand-in-curve",
    part: "pump",
    says: "greatest values in place of a curve",
    raises: yard({ with: [pump({ maxFlow: 0.0012, maxHead: 2.8 })] }),
    neighbour: yard(),
  },
  {
    code: "corrugated-manning",
    part: "return",
    says: "a return of corrugated hose, and one of smooth pipe",
    ...turned((material: "corrugated" | "pvc") => returnPipe({ material }), "corrugated", "pvc"),
  },
  {
    code: "loose-parts",
    part: "ring",
    says: "a pump in a closed ring, and the ring opened into the pond",
    raises: yard({ with: ring({ part: "booster" }) }),
    neighbour: yard({ with: ring({ part: "pond", z: -0.2, mouth: "side" }) }),
  },
  {
    code: "watts-too-low",
    part: "pump",
    // 0.949 L/s by 0.991 m are 999.1·9.80665·0.000949·0.991 = 9.22 W.
    says: "9 W drawn for 9.2 W in the water, and 9.5 W",
    ...turned((watts) => pump({ watts }), 9, 9.5),
  },
  {
    code: "outlet-narrow",
    part: "pump",
    // 0.949 L/s are 10 m/s through 10.99 mm.
    says: "an outlet of 10.9 mm for 0.95 L/s, and one of 11.1",
    ...turned((outletBore) => pump({ outletBore }), 0.0109, 0.0111),
  },
  {
    code: "media-bypassed",
    part: "vessel",
    says: "a supply that ends over the stone at +0.45, beside an outlet over it, and one at the base",
    ...turned(
      (z) =>
        pipe({
          route: [
            [0.4, 0.7],
            [3.3, 0.7],
            [3.3, z],
          ],
          to: { part: "vessel", z, mouth: "side" },
        }),
      0.5,
      0.1,
    ),
  },
];
