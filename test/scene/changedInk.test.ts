/** A drag paints only where ink may have changed, and what lies over it. What is left out would stay on the sheet as it
 * was; the boxes here are compared with a plain count of what two lines do not share. */
import { describe, expect, test } from "vitest";
import { changedInNode } from "../../editor/canvas/changedInk.ts";
import type { Box } from "../../editor/canvas/inkBox.ts";
import { piecesOver } from "../../editor/canvas/over.ts";
import type { Brush } from "../../editor/canvas/paint.ts";
import { projectionOf } from "../../editor/canvas/projection.ts";
import type { LineNode, PathNode, Place, SceneNode } from "../../editor/scene/node.ts";
import { palettes, penWidths } from "../../editor/scene/palette.ts";
import type { Piece } from "../../editor/scene/picture.ts";
import { pxPerMm } from "../../editor/sheet/transform.ts";
import { seeded } from "../support/seeded.ts";

const brush: Brush = {
  projection: projectionOf({ x0: 0, z0: 0, scale: 100 }),
  colours: palettes.paper,
  pens: penWidths.screen,
};

const line = (points: readonly Place[], more: Partial<LineNode> = {}): LineNode => ({
  key: "line",
  part: null,
  space: "paper",
  layer: "pipes",
  shape: "line",
  points,
  stroke: "ink",
  pen: "part",
  ...more,
});

const holds = (boxes: readonly Box[], [x, y]: Place): boolean =>
  boxes.some(
    ({ left, top, right, bottom }) =>
      left <= x * pxPerMm && x * pxPerMm <= right && top <= y * pxPerMm && y * pxPerMm <= bottom,
  );

/** The straight pieces of a line, those that a fill adds too. */
function stretches({ points, closed, fill }: LineNode): readonly (readonly [Place, Place])[] {
  const around = closed || fill !== undefined;
  return points.flatMap((a, i): (readonly [Place, Place])[] => {
    const b = points[i + 1] ?? (around ? points[0] : undefined);
    return b ? [[a, b]] : [];
  });
}

describe("where the ink of a line changes", () => {
  test.each([1, 2, 3, 4, 5, 6])("every stretch that only one of both has lies in the boxes, seed %i", (seed) => {
    const random = seeded(seed);
    const place = (): Place => [random.between(0, 200), random.between(0, 200)];
    for (let round = 0; round < 200; round++) {
      const before = Array.from({ length: 2 + Math.floor(random.between(0, 8)) }, place);
      const from = Math.floor(random.between(0, before.length));
      const taken = Math.floor(random.between(0, 3));
      const fresh = Array.from({ length: Math.floor(random.between(0, 3)) }, place);
      const after = [...before.slice(0, from), ...fresh, ...before.slice(from + taken)];
      if (after.length < 2) continue;
      const look: Partial<LineNode> = random.pick([{}, { closed: true }, { fill: "water" }, { dash: [1, 1] }] as const);
      const [a, b] = [line(before, look), line(after, look)];

      const boxes = changedInNode(a, b, brush);

      const [ofA, ofB] = [a, b].map((one) => new Set(stretches(one).map((stretch) => JSON.stringify(stretch))));
      for (const stretch of [...stretches(a), ...stretches(b)]) {
        const name = JSON.stringify(stretch);
        if (ofA?.has(name) && ofB?.has(name)) continue;
        for (const end of stretch) expect(holds(boxes, end)).toBe(true);
      }
    }
  });

  test("a corner moved at one end of a long line changes nothing at the other", () => {
    const before = Array.from({ length: 20 }, (_, i): Place => [10 * i, 0]);
    const after = before.map((place, i): Place => (i === 2 ? [20, 30] : place));

    const boxes = changedInNode(line(before), line(after), brush);

    expect(holds(boxes, [20, 30])).toBe(true);
    expect(holds(boxes, [100, 0])).toBe(false);
  });

  test("of a hatch only the lines that are others change, also where one is but a digit longer", () => {
    const path = (data: string): PathNode => ({
      key: "hatch",
      part: null,
      space: "paper",
      layer: "back",
      shape: "path",
      at: [0, 0],
      data,
      stroke: "hatch",
      pen: "hair",
    });
    const boxes = changedInNode(
      path("M0 0L1 1M50 50L60 60M90 90L99 99"),
      path("M0 0L1 15M50 50L60 60M90 90L99 99"),
      brush,
    );

    expect(holds(boxes, [1, 15])).toBe(true);
    expect(holds(boxes, [0, 0])).toBe(true);
    expect(holds(boxes, [95, 95])).toBe(false);
  });
});

describe("what lies over what moves", () => {
  const piece = (key: string, nodes: readonly SceneNode[]): Piece => ({ key, parts: ["part" as never], nodes });
  const earth = piece("earth", [
    line(
      [
        [0, 0],
        [100, 0],
      ],
      { layer: "back" },
    ),
  ]);
  const pond = piece("pond", [
    line(
      [
        [90, 0],
        [120, 0],
      ],
      { layer: "bodies" },
    ),
  ]);
  const vessel = piece("vessel", [
    line(
      [
        [119, 0],
        [150, 0],
      ],
      { layer: "bodies" },
    ),
  ]);
  const far = piece("far", [
    line(
      [
        [300, 0],
        [350, 0],
      ],
      { layer: "bodies" },
    ),
  ]);
  const pipe = piece("pipe", [
    line(
      [
        [0, 0],
        [100, 0],
      ],
      { layer: "pipes" },
    ),
  ]);
  const all = [earth, pond, vessel, far, pipe];
  const order = new Map(all.map(({ key }, i) => [key, i]));
  const over = (moving: Piece) =>
    [
      ...piecesOver(
        [moving],
        all.filter((one) => one !== moving),
        order,
        brush,
      ),
    ]
      .map(({ key }) => key)
      .sort();

  test("goes with it, and what lies over that; high ink is laid over low ink anyway", () => {
    expect(over(earth)).toEqual(["pond", "vessel"]);
    expect(over(pond)).toEqual(["vessel"]);
    expect(over(vessel)).toEqual([]);
    expect(over(far)).toEqual([]);
  });
});
