/** Walks the table of elements: every one listed there must behave, over bores,
 * lengths and flows far wider than a garden's. */
import { describe, expect, test } from "vitest";
import type { Loss } from "../../hydraulics/elements/element.ts";
import { type ElementKind, elements } from "../../hydraulics/elements/index.ts";
import { type Seeded, seeded } from "../support/seeded.ts";

const seed = 20260425;
const rounds = 100;

/** A number between two, evenly in its logarithm. */
const spread = (random: Seeded, low: number, high: number): number => low * (high / low) ** random.next();

/** One of each, at random; a new element does not compile here until it says how to make one. */
const make: { readonly [K in ElementKind]: (random: Seeded) => Loss } = {
  hazenWilliams: (r) =>
    elements.hazenWilliams.build({ L: spread(r, 0.01, 1e4), D: spread(r, 0.001, 2), C: r.between(60, 160) }),
  darcyWeisbach: (r) =>
    elements.darcyWeisbach.build({
      L: spread(r, 0.01, 1e4),
      D: spread(r, 0.001, 2),
      roughness: r.chance(0.2) ? 0 : spread(r, 1e-7, 3e-3),
      viscosity: spread(r, 6e-7, 2e-6),
    }),
  minorLoss: (r) => elements.minorLoss.build({ K: spread(r, 0.01, 1e4), D: spread(r, 0.001, 2) }),
  valve: (r) =>
    elements.valve.build({
      type: r.pick(["ball", "gate"] as const),
      open: r.between(0.001, 1),
      D: spread(r, 0.001, 2),
    }),
  checkValve: (r) =>
    elements.checkValve.build({
      K: spread(r, 0.1, 100),
      D: spread(r, 0.001, 2),
      openingHead: r.chance(0.5) ? 0 : r.between(0, 1),
    }),
  mediaBed: (r) =>
    elements.mediaBed.build({
      layers: Array.from({ length: r.whole(1, 4) }, () => ({
        length: spread(r, 0.001, 2),
        grain: spread(r, 2e-4, 0.2),
        porosity: r.between(0.2, 0.9),
      })),
      area: spread(r, 0.01, 50),
      clogging: spread(r, 1, 100),
      viscosity: spread(r, 6e-4, 2e-3),
      density: 999,
    }),
  pump: (r) => {
    const speed = r.between(0.3, 1.2);
    if (r.chance(0.4))
      return elements.pump.build({
        maxFlow: spread(r, 1e-4, 0.1),
        maxHead: r.between(0.5, 20),
        straight: r.chance(0.5),
        speed,
      });
    const count = r.whole(2, 12);
    const widest = spread(r, 1e-4, 0.1);
    let flow = r.chance(0.5) ? 0 : widest * r.between(0.01, 0.3);
    let head = r.between(1, 20);
    const curve = Array.from({ length: count }, () => {
      const point = [flow, head] as const;
      flow += widest * spread(r, 0.01, 1);
      head -= spread(r, 0.001, 5);
      return point;
    });
    return elements.pump.build({ curve, speed });
  },
};

/** Elements that lose the same both ways; a pump and a valve with a spring do not. */
const isOdd = (kind: ElementKind) => kind !== "pump" && kind !== "checkValve";
const flowsOf = (random: Seeded): number[] => [
  0,
  1e-12,
  -1e-12,
  10,
  -10,
  ...Array.from({ length: 24 }, () => (random.chance(0.5) ? 1 : -1) * spread(random, 1e-9, 1)),
];

describe.each(Object.keys(elements) as ElementKind[])(`%s, seed ${seed}`, (kind) => {
  const each = (check: (law: Loss, random: Seeded) => void) => () => {
    const random = seeded(seed);
    for (let round = 0; round < rounds; round++) check(make[kind](random), random);
  };

  test(
    "the loss never falls as the flow rises",
    each((law, random) => {
      const flows = flowsOf(random).sort((a, b) => a - b);
      for (let i = 1; i < flows.length; i++) {
        expect(law.loss(flows[i]!)).toBeGreaterThanOrEqual(law.loss(flows[i - 1]!));
      }
    }),
  );

  test(
    "the slope is above zero at rest and nowhere below it",
    each((law, random) => {
      expect(law.slope(0)).toBeGreaterThan(0);
      for (const Q of flowsOf(random)) expect(law.slope(Q)).toBeGreaterThanOrEqual(0);
    }),
  );

  test(
    "the slope is the derivative of the loss",
    each((law, random) => {
      for (const Q of flowsOf(random)) {
        const h = Math.max(1e-5 * Math.abs(Q), 1e-15);
        const [below, above] = [law.slope(Q - h), law.slope(Q + h)];
        const measured = (law.loss(Q + h) - law.loss(Q - h)) / (2 * h);
        const [least, most] = [Math.min(below, above, law.slope(Q)), Math.max(below, above, law.slope(Q))];
        // Between the slopes to either side (a knee and the end of a curve are kinks), but for what subtraction loses.
        const rounding = (4e-16 * Math.abs(law.loss(Q))) / h + 1e-6 * most;
        expect(measured, `Q ${Q}`).toBeGreaterThanOrEqual(least - rounding);
        expect(measured, `Q ${Q}`).toBeLessThanOrEqual(most + rounding);
      }
    }),
  );

  test(
    "the content is the integral of the loss, 0 at rest",
    each((law, random) => {
      expect(law.content(0)).toBeCloseTo(0, 15);
      for (const Q of flowsOf(random)) {
        const h = Math.max(1e-4 * Math.abs(Q), 1e-8);
        const measured = (law.content(Q + h) - law.content(Q - h)) / (2 * h);
        const least = law.loss(Q - h);
        const most = law.loss(Q + h);
        const rounding = (8e-16 * Math.abs(law.content(Q))) / h + 1e-9 * Math.max(Math.abs(least), Math.abs(most));
        expect(measured, `Q ${Q}`).toBeGreaterThanOrEqual(least - rounding);
        expect(measured, `Q ${Q}`).toBeLessThanOrEqual(most + rounding);
      }
    }),
  );

  test(
    "no flow gives anything but a number",
    each((law, random) => {
      for (const Q of [...flowsOf(random), 1e3, -1e3, Number.MIN_VALUE]) {
        for (const value of [law.loss(Q), law.slope(Q), law.content(Q)])
          expect(Number.isFinite(value), `Q ${Q}`).toBe(true);
      }
    }),
  );

  if (!isOdd(kind)) return;
  test(
    "water loses as much the other way round",
    each((law, random) => {
      for (const Q of flowsOf(random)) {
        expect(law.loss(-Q)).toBeCloseTo(-law.loss(Q), 12);
        expect(law.slope(-Q)).toBe(law.slope(Q));
        expect(law.content(-Q)).toBe(law.content(Q));
      }
    }),
  );
});

test("the loss is right though a chord stands in near rest: within a nanometre of head", () => {
  const random = seeded(seed);
  for (let round = 0; round < rounds; round++) {
    const L = spread(random, 0.1, 100);
    const D = spread(random, 0.01, 0.2);
    const law = elements.hazenWilliams.build({ L, D, C: 150 });
    const Q = spread(random, 1e-12, 1e-5);

    const plain = (10.67 * L * Q ** 1.852) / (150 ** 1.852 * D ** 4.8704);

    expect(Math.abs(law.loss(Q) - plain)).toBeLessThan(1e-9 + 1e-12 * plain);
  }
});
