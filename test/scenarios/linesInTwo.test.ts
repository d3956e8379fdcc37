/** What is found on a line hangs on nothing but the line: valves, vents, mouths and crests on the piece past a joint
 * count as on the first (format notes: "a joint: no tee loss"). */
import { expect, it } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import type { Part, Section } from "../../hydraulics/document/section.ts";
import { flushPipe, flushValve, pipe, pump, vent, yard } from "../support/builders.ts";
import { inTwo } from "../support/inTwo.ts";

const found = (drawing: Section) => {
  const { running, findings } = assess(drawing, { quick: true });
  if (!running.converged) throw new Error("it did not converge");
  return { running, codes: [...new Set(findings.map(({ code }) => code))].sort() };
};

/** Its foot valve's line rises over the water before it goes down to a pump beside the pond. */
const suction: readonly Part[] = [
  pump({ in: undefined, x: -1, z: -0.2 }),
  pipe({
    id: "suction",
    from: { part: "pond", x: 0.5, z: -0.4, mouth: "down" },
    to: { part: "pump" },
    route: [
      [0.5, 0.3],
      [-1, 0.3],
    ],
  }),
  pipe({
    route: [
      [-1, 0.7],
      [3.3, 0.7],
      [3.3, 0.1],
    ],
  }),
];
const bareMouth = suction.map((part) =>
  part.id === "suction" ? { ...part, from: { part: "pond", x: 0.5, z: 0.1, mouth: "down" } as never } : part,
);
/** Drawn from low in the vessel over a bend above its water, and shut at its far end. */
const shutSiphon: readonly Part[] = [
  pipe({
    id: "draw",
    from: { part: "vessel", z: 0.2, mouth: "side" },
    to: { part: "pond", x: 2, z: -0.3, mouth: "down" },
    route: [
      [3.4, 0.2],
      [3.4, 0.9],
      [2, 0.9],
    ],
    bore: 0.05,
  }),
  flushValve({ id: "gate", on: { pipe: "draw" as never, at: 3 }, role: "throttle", open: 0 }),
];

const cases: readonly (readonly [says: string, drawing: Section, id: string, at: number, code: string, is: boolean])[] =
  [
    [
      "a vent under the water",
      yard({ with: [vent({ on: { pipe: "supply" as never, at: 0.8 } })] }),
      "supply",
      1.5,
      "vent-below-water",
      true,
    ],
    ["an open flush", yard({ with: [flushValve({ open: 1 })] }), "flush", 0.1, "open-end-loses-water", true],
    [
      "a flush into the pond, open",
      yard({
        with: [
          flushPipe({ to: { part: "pond", x: 2.5, z: -0.1, mouth: "down" }, route: [[2.5, 0.03]] }),
          flushValve({ open: 1 }),
        ],
      }),
      "flush",
      0.1,
      "flush-open",
      true,
    ],
    ["a flush that is shut", yard(), "flush", 0.1, "no-flush", false],
    ["a flush as the only way out", yard({ without: ["return"] }), "flush", 0.1, "no-return", true],
    ["a suction line over the water", yard({ with: suction }), "suction", 2.6, "pump-must-be-primed", true],
    ["a suction line with its mouth bare", yard({ with: bareMouth }), "suction", 1, "pump-dry", true],
    ["a shut line over the water", yard({ with: shutSiphon }), "draw", 1.5, "may-siphon", false],
  ];

it.each(cases)("%s is found as one line, wherever it is drawn in two", (_, drawing, id, at, code, is) => {
  const one = found(drawing);
  expect(one.codes.includes(code as never)).toBe(is);

  for (const backwards of [false, true]) {
    const two = found(inTwo(drawing, id, at, backwards));
    expect(two.codes).toEqual(one.codes);
    for (const [vessel, { returnCapacity }] of one.running.vessels)
      expect(two.running.vessels.get(vessel)?.returnCapacity).toBeCloseTo(returnCapacity ?? Number.NaN, 6);
  }
});
