/** A maker's curve typed into a table that already holds another: it ends in what was typed, in whatever order. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { curvePasted } from "../../editor/panels/curvePasted.ts";
import {
  addPoint,
  type Curve,
  type CurveRows,
  curveOf,
  dropWaiting,
  openedCurve,
  rowsMoved,
  type Side,
  takeOutPoint,
  typeFigure,
  typeTable,
  type Waiting,
} from "../../editor/panels/curveTyping.ts";
import { makeWay } from "../../editor/panels/curveWay.ts";

const anyHolds = () => true;
const standIn: Curve = [
  [0, 2.4],
  [0.0002, 2.25],
  [0.0004, 1.8],
  [0.0006, 1.05],
  [0.0008, 0],
];

const type = (rows: CurveRows, row: number, side: Side, value: number): CurveRows =>
  typeFigure(rows, row, side, { text: String(value), units: "metric", value }, anyHolds);

const standing = (rows: CurveRows): Curve => {
  const curve = curveOf(rows);
  if (!curve) throw new Error("there is no curve");
  return curve;
};

const isValid = (curve: Curve): boolean =>
  curve.every(([flow, head], i) => {
    const before = curve[i - 1];
    return flow >= 0 && head >= 0 && (!before || (flow > before[0] && head < before[1]));
  });

const waits = (rows: CurveRows): boolean => rows.some(({ waiting }) => waiting[0] !== null || waiting[1] !== null);

/** As a maker prints it: L/h and centimetres, from shut off or from a first point, to no head or to a last one. */
const figures = (count: number, most: number) =>
  fc
    .uniqueArray(fc.integer({ min: 0, max: most }), { minLength: count, maxLength: count })
    .map((all) => all.sort((a, b) => a - b));
const curveWith = (count: number): fc.Arbitrary<Curve> =>
  fc
    .tuple(figures(count, 40_000), figures(count, 1200))
    .map(([flows, heads]) => flows.map((flow, i) => [flow / 3.6e6, (heads[count - 1 - i] as number) / 100] as const));

interface Case {
  readonly base: Curve;
  readonly target: Curve;
  readonly order: readonly number[];
}

const cases: fc.Arbitrary<Case> = fc.integer({ min: 2, max: 8 }).chain((count) =>
  fc.record({
    base: curveWith(count),
    target: curveWith(count),
    order: fc.shuffledSubarray(
      Array.from({ length: 2 * count }, (_, k) => k),
      { minLength: 2 * count, maxLength: 2 * count },
    ),
  }),
);

describe("typing a whole table", () => {
  it("ends in what was typed, in any order, with a curve at each step and nothing typed moved", () => {
    fc.assert(
      fc.property(cases, ({ base, target, order }) => {
        let rows = openedCurve(base);
        const done: [number, Side][] = [];
        for (const k of order) {
          const [row, side] = [k >> 1, (k & 1) as Side];
          rows = type(rows, row, side, target[row]?.[side] as number);
          done.push([row, side]);
          const now = standing(rows);
          expect(isValid(now)).toBe(true);
          for (const [i, s] of done) expect(now[i]?.[s]).toBe(target[i]?.[s]);
        }
        expect(standing(rows)).toEqual(target);
        expect(rowsMoved(rows)).toEqual([]);
        expect(waits(rows)).toBe(false);
      }),
      { numRuns: 500, seed: 1 },
    );
  });

  it("ends in what was typed last, where all of it was typed twice", () => {
    fc.assert(
      fc.property(cases, cases, ({ base, target, order }, second) => {
        let rows = openedCurve(base);
        for (const k of order) rows = type(rows, k >> 1, (k & 1) as Side, target[k >> 1]?.[k & 1] as number);
        fc.pre(second.target.length === base.length);
        for (const k of second.order) {
          rows = type(rows, k >> 1, (k & 1) as Side, second.target[k >> 1]?.[k & 1] as number);
          expect(isValid(standing(rows))).toBe(true);
        }
        expect(standing(rows)).toEqual(second.target);
        expect(waits(rows)).toBe(false);
      }),
      { numRuns: 300, seed: 2 },
    );
  });

  it("leaves figures that are in nobody's way", () => {
    const rows = type(openedCurve(standIn), 2, 0, 0.0005);

    expect(standing(rows)).toEqual(standIn.with(2, [0.0005, 1.8]));
    expect(rowsMoved(rows)).toEqual([]);
  });

  it("puts back what made way for a slip of the key, once that is mended", () => {
    const slip = type(openedCurve(standIn), 1, 0, 0.005);
    expect(rowsMoved(slip)).toEqual([2, 3, 4]);

    const mended = type(slip, 1, 0, 0.0003);

    expect(standing(mended)).toEqual(standIn.with(1, [0.0003, 2.25]));
  });
});

describe("a figure that contradicts one that was typed", () => {
  const two = type(openedCurve(standIn), 1, 0, 0.003);

  it("waits, and changes nothing", () => {
    const rows = type(two, 2, 0, 0.002);

    expect(standing(rows)).toEqual(standing(two));
    expect(rows[2]?.waiting[0]?.text).toBe("0.002");
  });

  it("is taken with the one that lets it in", () => {
    const rows = type(type(two, 2, 0, 0.002), 1, 0, 0.001);

    expect(standing(rows)[1]?.[0]).toBe(0.001);
    expect(standing(rows)[2]?.[0]).toBe(0.002);
    expect(waits(rows)).toBe(false);
  });

  it("is taken when the point in its way is taken out", () => {
    const rows = takeOutPoint(type(two, 2, 0, 0.002), 1, anyHolds);

    expect(standing(rows).map(([flow]) => flow)[1]).toBe(0.002);
    expect(waits(rows)).toBe(false);
  });

  it("is forgotten where it is dropped", () => {
    expect(dropWaiting(type(two, 2, 0, 0.002), 2, 0)).toEqual(two);
  });

  it("waits at 0 where further flows must lie below it", () => {
    expect(waits(type(openedCurve(standIn), 2, 0, 0))).toBe(true);
    expect(waits(type(openedCurve(standIn), 2, 1, 0))).toBe(true);
    expect(waits(type(openedCurve(standIn), 0, 0, 0))).toBe(false);
  });

  it("waits where no drawing holds it", () => {
    const rows = typeFigure(openedCurve(standIn), 0, 1, { text: "9000", units: "metric", value: 9000 }, (curve) =>
      curve.every(([, head]) => head <= 1000),
    );

    expect(standing(rows)).toEqual(standIn);
    expect(waits(rows)).toBe(true);
  });
});

describe("points more and less", () => {
  const typedAll = (curve: Curve): CurveRows =>
    curve.reduce((rows, [flow, head], i) => type(type(rows, i, 0, flow), i, 1, head), openedCurve(standIn));

  it("one more comes in the widest gap of a curve that nobody typed", () => {
    const curve: Curve = [
      [0, 4],
      [1, 3],
      [4, 1],
    ];

    expect(standing(addPoint(openedCurve(curve)))).toEqual([curve[0], curve[1], [2.5, 2], curve[2]]);
  });

  it("one more comes after the last that was typed", () => {
    const rows = addPoint(type(openedCurve(standIn), 1, 0, 0.0003));

    expect(standing(rows).map(([flow]) => flow)).toEqual([0, 0.0003, 0.00035, 0.0004, 0.0006, 0.0008]);
  });

  it("a table of five is typed on to its sixth row", () => {
    const five: Curve = [
      [0, 5],
      [0.001, 4],
      [0.002, 3],
      [0.003, 2],
      [0.004, 1],
    ];

    const six = type(type(addPoint(typedAll(five)), 5, 0, 0.0055), 5, 1, 0.25);

    expect(standing(six)).toEqual([...five, [0.0055, 0.25]]);
  });

  it("a point taken out leaves the others where they made way to", () => {
    const before = standing(type(openedCurve(standIn), 1, 0, 0.003));
    const rows = takeOutPoint(type(openedCurve(standIn), 1, 0, 0.003), 1, anyHolds);

    expect(standing(rows)).toEqual(before.toSpliced(1, 1));
  });

  it("adding and taking out in between leave what was typed", () => {
    fc.assert(
      fc.property(cases, fc.nat(), ({ base, target, order }, at) => {
        let rows = openedCurve(base);
        for (const k of order.slice(0, order.length / 2))
          rows = type(rows, k >> 1, (k & 1) as Side, target[k >> 1]?.[k & 1] as number);
        const more = addPoint(rows);
        expect(isValid(standing(more))).toBe(true);
        const fewer = takeOutPoint(more, at % more.length, anyHolds);
        expect(isValid(standing(fewer))).toBe(true);
        for (const [i, { typed }] of fewer.entries())
          for (const side of [0, 1] as const)
            if (typed[side] !== null) expect(standing(fewer)[i]?.[side]).toBe(typed[side]);
      }),
      { numRuns: 300, seed: 3 },
    );
  });
});

describe("rows that make way", () => {
  it("keep their shape between two that stand", () => {
    expect(makeWay([0, 1, 2, 3, 4], [10, null, null, null, 18])).toEqual([10, 12, 14, 16, 18]);
  });

  it("shrink towards 0 before the first and shift after the last", () => {
    expect(makeWay([1, 2, 3], [null, null, 1.5])).toEqual([0.5, 1, 1.5]);
    expect(makeWay([1, 2, 3], [5, null, null])).toEqual([5, 6, 7]);
  });

  it("give no table where what stands falls", () => {
    expect(makeWay([0, 1, 2], [3, null, 2])).toBe(null);
    expect(makeWay([0, 1, 2], [2, 2, null])).toBe(null);
  });
});

describe("a table that is pasted", () => {
  const asTyped = (value: number): Waiting => ({ text: String(value), units: "metric", value });

  it("is read from a spreadsheet with its heading, or row by row from a maker's sheet", () => {
    const rows = [
      ["0", "5"],
      ["2000", "4.5"],
    ];

    expect(curvePasted("Q L/h\tH m\r\n0\t5\r\n2000\t4.5\r\n")).toEqual(rows);
    expect(curvePasted("0/5\n2000 / 4.5")).toEqual(rows);
    expect(curvePasted("0 5\n2000 4.5")).toEqual(rows);
    expect(curvePasted("0;5\n2000;4.5\n\n")).toEqual(rows);
    expect(curvePasted("1 1/2\n3 ft 2 in")).toEqual([["1 1/2"], ["3 ft 2 in"]]);
  });

  it("is none where it is one figure, of more columns than two, or uneven", () => {
    expect(curvePasted("2000 L/h")).toBe(null);
    expect(curvePasted(" 4.5\n")).toBe(null);
    expect(curvePasted("")).toBe(null);
    expect(curvePasted("1\t0\t5\n2\t2000\t4")).toBe(null);
    expect(curvePasted("0\t5\n2000")).toBe(null);
    expect(curvePasted("1\n".repeat(201))).toBe(null);
  });

  it("is the whole curve from the first row on, whatever was typed there", () => {
    fc.assert(
      fc.property(cases, cases, ({ base, order }, { target }) => {
        let rows = openedCurve(base);
        for (const k of order.slice(0, 3)) rows = type(rows, k >> 1, (k & 1) as Side, base[k >> 1]?.[k & 1] as number);

        const pasted = typeTable(
          rows,
          0,
          target.map(([flow, head]) => [asTyped(flow), asTyped(head)] as const),
          anyHolds,
        );

        expect(standing(pasted)).toEqual(target);
        expect(waits(pasted)).toBe(false);
      }),
      { numRuns: 300, seed: 4 },
    );
  });

  it("of one column fills its column, in more rows where it is longer", () => {
    const flows = [0, 0.001, 0.002, 0.003, 0.004, 0.005];
    const rows = typeTable(
      openedCurve(standIn),
      0,
      flows.map((flow) => [asTyped(flow), null] as const),
      anyHolds,
    );

    expect(standing(rows).map(([flow]) => flow)).toEqual(flows);
    expect(isValid(standing(rows))).toBe(true);
  });

  it("waits row by row where it contradicts what was typed above it", () => {
    const rows = typeTable(
      type(openedCurve(standIn), 0, 0, 0.002),
      1,
      [
        [asTyped(0.001), asTyped(2)],
        [asTyped(0.003), asTyped(1)],
      ],
      anyHolds,
    );

    expect(rows[1]?.waiting[0]?.value).toBe(0.001);
    expect(rows[1]?.typed[1]).toBe(2);
    expect(rows[2]?.typed).toEqual([0.003, 1]);
  });
});
