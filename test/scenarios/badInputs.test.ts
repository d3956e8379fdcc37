/** Drawings that make no sense, or that would take for ever:
 * each has a stated result, and no run lasts past its bound. */
import { describe, expect, it } from "vitest";
import { type Assessed, assess } from "../../hydraulics/assess.ts";
import { readSection } from "../../hydraulics/document/read.ts";
import type { Part, PartId } from "../../hydraulics/document/section.ts";
import { writeSection } from "../../hydraulics/document/write.ts";
import { flushPipe, flushValve, pipe, pond, pump, returnPipe, section, vent, vessel } from "../support/builders.ts";

const day = 24 * 3600;

/** From the text of the file, with everything that can be asked for. */
function resultOf(parts: readonly Part[]): Assessed {
  const read = readSection(writeSection(section([...parts])));
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return assess(read.value, { faults: true });
}
const codes = ({ findings }: Assessed): string[] => findings.map(({ code }) => code);
const cutOf = ({ powerCut }: Assessed) => {
  if (!powerCut) throw new Error("there is a power cut");
  return powerCut;
};
const vesselOf = (result: Assessed) => cutOf(result).vessels.get("vessel" as PartId);

/** The cut follows two days at most, everything else one; a second is what rounding of times may add. */
function expectWithinBounds({ powerCut, starts, faults }: Assessed): void {
  expect(powerCut?.duration).toBeLessThanOrEqual(2 * day);
  for (const run of [starts?.startUp, starts?.restart]) expect(run?.duration ?? 0).toBeLessThanOrEqual(day);
  // The fault that is the power cut alone is that run itself.
  for (const { fault, duration } of faults)
    expect(duration).toBeLessThanOrEqual(fault === "powerCut" ? 2 * day : day + 1);
}

describe("bad input has a stated result", { timeout: 60_000 }, () => {
  it("where nothing is connected the vessel stays brim-full, and the loose pump is named", () => {
    const result = resultOf([pond(), vessel(), pump()]);

    // Nothing leaves it and nothing enters: the highest level at which nothing leaves is the rim.
    expect(vesselOf(result)).toMatchObject({ verdict: "held", heldBy: "geometry", finalLevel: 0.75 });
    expect(codes(result)).toContain("loose-parts");
    expect(codes(result)).not.toContain("pump-shut-off");
    expectWithinBounds(result);
  });

  it("a pipe of no length, with a vent on it, is refused with its path", () => {
    const here = { part: "vessel", z: 0.3, mouth: "side" } as const;
    const stub = pipe({ id: "stub", from: here, to: here, route: [] });
    const read = readSection(
      writeSection(section([pond(), vessel(), pump(), stub, vent({ on: { pipe: "stub", at: 0 } })])),
    );

    expect(read.ok ? [] : read.error).toEqual([
      {
        path: "parts[3].route",
        expected: "a route with a length",
        found: "both ends of the pipe and its route at one place",
      },
    ]);
  });

  it("a vessel whose rim lies under the pond runs over, and goes on when the pump stops", () => {
    const result = resultOf([
      pond(),
      vessel({ baseLevel: -0.6, rimLevel: -0.1, media: [] }),
      pump(),
      pipe({
        to: { part: "vessel", z: -0.5, mouth: "side" },
        route: [
          [0.4, 0.7],
          [3.3, 0.7],
          [3.3, -0.5],
        ],
      }),
    ]);

    expect(codes(result)).toEqual(expect.arrayContaining(["overtops-running", "overtops-in-cut"]));
    // 6 m² from +0.01 down to the rim at −0.10, where the siphon has nothing more to give.
    expect(cutOf(result).lostToGround).toBeCloseTo(0.66, 2);
    expectWithinBounds(result);
  });

  it("a pond with no water leaves the pump dry, and nothing else is made of it", () => {
    const result = resultOf([pond({ waterLevel: -0.8 }), vessel(), pump(), pipe(), vent(), returnPipe()]);

    expect(codes(result)).toContain("pump-dry");
    expect(cutOf(result).failedAt).toBeNull();
    expect(vesselOf(result)?.verdict).toBe("held");
    expectWithinBounds(result);
  });

  it("a drain-back that would take a month ends after two days, and says that water still moves", () => {
    // 100 m² × 0.57 m over the flush, at 1 L an hour: years.
    const wide = vessel({ plan: { shape: "rectangle", width: 10, length: 10 } });
    const result = resultOf([
      pond(),
      wide,
      pump(),
      pipe(),
      vent(),
      returnPipe(),
      flushPipe({ bore: 0.001 }),
      flushValve({ open: 1 }),
    ]);

    expect(cutOf(result).settled).toBe(false);
    expect(codes(result)).toContain("cut-not-settled");
    expectWithinBounds(result);
  });
});
