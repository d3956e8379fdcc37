/** Stretches of full pipe are linearised all at once, from their laws' numbers:
 * by the law of each, as it stands alone. */
import fc from "fast-check";
import { expect, it } from "vitest";
import type { PartId } from "../../hydraulics/document/section.ts";
import { darcyWeisbach } from "../../hydraulics/elements/darcyWeisbach.ts";
import type { Loss } from "../../hydraulics/elements/element.ts";
import { hazenWilliams } from "../../hydraulics/elements/hazenWilliams.ts";
import { squareLaw } from "../../hydraulics/elements/squareLaw.ts";
import { scaled, seamless } from "../../hydraulics/network/laws.ts";
import { FullLines } from "../../hydraulics/solver/fullLines.ts";
import { FullLink } from "../../hydraulics/solver/links/fullLink.ts";

const bore = fc.double({ min: 0.001, max: 2, noNaN: true });
const length = fc.double({ min: 0.01, max: 1e4, noNaN: true });
const friction: fc.Arbitrary<Loss> = fc.oneof(
  fc
    .record({ D: bore, L: length, C: fc.double({ min: 60, max: 160, noNaN: true }) })
    .map((pipe) => hazenWilliams.build(pipe)),
  fc
    .record({
      D: bore,
      L: length,
      roughness: fc.double({ min: 0, max: 0.01, noNaN: true }),
      viscosity: fc.constant(1.1e-6),
      times: fc.constantFrom(1, 0.88, 1.14),
    })
    .map(({ times, ...pipe }) => scaled(darcyWeisbach.build(pipe), times)),
  fc.constant(seamless),
);
const fitting = fc.double({ min: 1e-3, max: 1e12, noNaN: true }).map(squareLaw);
const flow = fc.oneof(
  fc.double({ min: -20, max: 20, noNaN: true }),
  fc.double({ min: -1e-4, max: 1e-4, noNaN: true }),
  fc.constantFrom(0, 1e-13, -1e-13),
);

/** What the loop leaves of one line at a flow. */
function inLoop(link: FullLink, Q: number, heads: readonly [number, number]) {
  const one = () => new Float64Array(1);
  const iterate = {
    head: Float64Array.from(heads),
    flow: Float64Array.of(Q),
    q: one(),
    gi: one(),
    gj: one(),
    through: new Float64Array(2),
    left: { loss: 0, link: -1 },
  };
  new FullLines([link]).linearise(iterate);
  return { slope: 1 / (iterate.gi[0] as number), loss: (Q - (iterate.q[0] as number)) / (iterate.gi[0] as number) };
}

it("has the loss and the slope of its friction and its fittings at every flow", () => {
  const line = fc.record({ friction, forward: fitting, backward: fitting, Q: flow });

  fc.assert(
    fc.property(line, ({ friction, forward, backward, Q }) => {
      const stretch = { friction, forward, backward, shut: false, oneWay: 0, openingHead: 0, area: 1e9 } as const;
      const fittings = Q >= 0 ? forward : backward;
      const loss = friction.loss(Q) + fittings.loss(Q);
      const slope = friction.slope(Q) + fittings.slope(Q);

      const seen = inLoop(new FullLink("line" as PartId, 0, 1, stretch), Q, [0, 0]);

      expect(Math.abs(seen.loss - loss)).toBeLessThan(1e-12 * Math.max(Math.abs(loss), slope * Math.abs(Q)) + 1e-300);
      expect(Math.abs(seen.slope - slope)).toBeLessThan(1e-12 * slope);
      expect(new FullLink("line" as PartId, 0, 1, stretch).lossNow(Q)).toBe(loss);
    }),
    { seed: 5, numRuns: 3000 },
  );
});
