/** Columns that part in the power cut, and ratings of vents on an overflow drawn from below: by hand, from the flow. */
import { describe, expect, it } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import type { PartId, Section } from "../../hydraulics/document/section.ts";
import { startUp } from "../../hydraulics/powerCut/startUp.ts";
import { pipe, pond, pump, returnPipe, section, vent, vessel } from "../support/builders.ts";

const g = 9.80665;
const bore = 0.045;
const strong = pump({ curve: undefined, maxHead: 14, maxFlow: 0.003, watts: 500 });

/** A supply that goes up out of the pond, `run` metres along at `crest`, and down to the base of the vessel. */
const over = (crest: number, run: number): Section =>
  section([
    pond({ x: 0.4 - run - 0.5 }),
    vessel(),
    { ...strong, x: 0.4 - run },
    pipe({
      bore,
      route: [
        [0.4 - run, crest],
        [3.3, crest],
        [3.3, 0.1],
      ],
    }),
    returnPipe(),
  ]);

/** Hazen and Williams (1905), SI: 10.667·L·Q^1.852/(C^1.852·D^4.8704), C 150. */
const friction = (Q: number, length: number): number =>
  (10.667 * length * Q ** 1.852) / (150 ** 1.852 * bore ** 4.8704);

describe("a column parts where the pressure falls under −7 m, losses taken off", () => {
  // Backwards from the vessel: entrance 0.5, an elbow 0.9 at either end of the crest, then the lowest pressure lies at
  // the crest's pond-side end (bend and velocity head included); all by the energy equation.
  const cases = [2, 40].flatMap((run) => [7.2, 7.35, 7.5, 7.65, 7.8].map((crest) => ({ run, crest })));
  const told = cases.map(({ run, crest }) => {
    const { powerCut } = assess(over(crest, run), { quick: true });
    if (!powerCut) throw new Error("no power cut");
    const Q = Math.abs(powerCut.history.flows.get("supply" as PartId)?.[0] ?? 0);
    const start = powerCut.vessels.get("vessel" as PartId)?.startLevel ?? 0;
    const velocityHead = (Q / ((Math.PI * bore ** 2) / 4)) ** 2 / (2 * g);
    const length = 0.3 + (crest - 0.1) + (2.9 + run);
    const pressure = start - friction(Q, length) - (0.5 + 0.9 + 0.9 + 1) * velocityHead - crest;
    return { run, crest, Q, pressure, parts: powerCut.events.some(({ code }) => code === "columnParts") };
  });

  it.each(told)("$run m along at $crest m", ({ Q, pressure, parts }) => {
    expect(Q).toBeGreaterThan(1e-5);
    // Nearer than 20 mm the hand's 10.667 and the last bend's share would decide.
    expect(Math.abs(pressure + 7)).toBeGreaterThan(0.02);
    expect(parts).toBe(pressure < -7);
  });

  it("the long line parts at a crest that the short one bears", () => {
    const at = (run: number) => told.filter((one) => one.run === run && one.parts).map(({ crest }) => crest);

    expect(at(2).length).toBeGreaterThan(0);
    expect(Math.min(...at(40))).toBeLessThan(Math.min(...at(2)));
  });
});

describe("a vent on an overflow drawn from below", () => {
  const overflow = (ventBore: number): Section =>
    section([
      pond(),
      vessel(),
      pump(),
      pipe(),
      vent(),
      pipe({
        id: "return",
        from: { part: "vessel", x: 4, z: 0.3, mouth: "down" },
        to: { part: "pond", z: -0.2, mouth: "side" },
        route: [
          [4, 0.6],
          [3.1, 0.6],
          [3.1, -0.2],
        ],
        bore: 0.05,
      }),
      vent({ id: "breather", on: { pipe: "return", at: 0.7 }, bore: ventBore, openEndZ: 0.8 }),
    ]);
  const cutOf = (ventBore: number) => {
    const { powerCut } = assess(overflow(ventBore), { quick: true });
    if (!powerCut) throw new Error("no power cut");
    return { vent: powerCut.vents.get("breather" as PartId), tub: powerCut.vessels.get("vessel" as PartId) };
  };

  it("is rated as the siphon that it breaks, though that siphon then does no harm", () => {
    const wide = cutOf(0.02);
    const narrow = cutOf(0.004);

    expect(wide.vent?.rating).toBe("ample");
    expect(wide.tub?.verdict).toBe("held");
    // The air that passes goes with the square of the bore, all but the riser's share, and the water is the same.
    expect(narrow.vent?.rating).not.toBe("ample");
    expect(narrow.tub?.verdict).toBe("drains");
    const ratio = (wide.vent?.airToWater ?? 0) / (narrow.vent?.airToWater ?? 1);
    expect(ratio).toBeGreaterThan(25);
    expect(ratio).toBeLessThan(35);
  });
});

it("a start with the vessel full to over its outlet's edge has its return running from the first moment", () => {
  const run = startUp(section([pond(), vessel(), pump(), pipe(), vent(), returnPipe()]), {
    levels: new Map([["vessel" as PartId, 0.6 - 0.0339 + 0.001]]),
  });

  expect(run?.vessels.get("vessel" as PartId)?.timeToReturn).toBe(0);
});
