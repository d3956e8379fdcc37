/** A level mark reads as the level of what it lies in, on or just over, and a height as that of the vessel it stands
 * at. So they keep off other bodies, marks off pipes too, or are left out: slips and tables hold the levels too. */
import { describe, expect, test } from "vitest";
import type { LineNode } from "../../editor/scene/node.ts";
import { paperOf, type Rect, type SheetTransform } from "../../editor/sheet/transform.ts";
import {
  type Body,
  bottomOf,
  drawnWidth,
  type PartId,
  pipeLine,
  type Section,
  siteOf,
} from "../../hydraulics/index.ts";
import { designs, drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";
import { paperOfWindow, sampled, sceneOf, windows, zoomed } from "./sheets.ts";

type Mm = readonly [number, number];

interface Place {
  readonly id: string;
  readonly kind: Body["kind"];
  readonly rect: Rect;
}

/** mm over a rim that are still that body's */
const overRim = 2;
/** mm between a shelf and a pipe's edge that are seen */
const seen = 0.5;

const systems = ["metric", "us"] as const;

/** From the rim to the foot of what the body stands on. */
function placesOf(section: Section, transform: SheetTransform): readonly Place[] {
  const { groundLevel } = siteOf(section);
  const bodies = [...section.parts.values()].filter(
    (part): part is Body => part.kind === "pond" || part.kind === "vessel",
  );
  return bodies.map((body) => {
    const [x, y] = paperOf(transform, [body.x, body.rimLevel]);
    const [right, foot] = paperOf(transform, [body.x + drawnWidth(body), Math.min(bottomOf(body), groundLevel)]);
    return { id: body.id, kind: body.kind, rect: { x, y, width: right - x, height: foot - y } };
  });
}

const holds = ({ x, y, width, height }: Rect, [px, py]: Mm): boolean =>
  px > x && px < x + width && py > y && py < y + height;

const away = (at: number, { x, width }: Rect): number => Math.max(x - at, at - x - width, 0);

const edgeOf = ({ x, y, width, height }: Rect): readonly Mm[] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
  [x, y],
];

const higher = ({ x, y, width, height }: Rect, by: number): Rect => ({ x, y: y - by, width, height: height + by });

/** mm to the nearest place of the line. */
const distance = (at: Mm, line: readonly Mm[]): number =>
  Math.min(...line.slice(1).map((b, i) => toStretch(at, line[i] as Mm, b)));

function toStretch([x, y]: Mm, [ax, ay]: Mm, [bx, by]: Mm): number {
  const [dx, dy] = [bx - ax, by - ay];
  const share = dx === 0 && dy === 0 ? 0 : ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy);
  const within = Math.min(Math.max(share, 0), 1);
  return Math.hypot(ax + within * dx - x, ay + within * dy - y);
}

/** Own walls end where the shelf begins. */
const shelfOf = (leader: readonly Mm[]): readonly Mm[] => leader.slice(-2);

function pipesOf(section: Section, transform: SheetTransform) {
  return [...section.parts.values()].flatMap((part) =>
    part.kind === "pipe"
      ? [
          {
            id: part.id,
            line: pipeLine(section, part).map((place) => paperOf(transform, place)),
            half: (part.bore * transform.mmPerMetre) / 2,
          },
        ]
      : [],
  );
}

describe.each(drawingsIn(designs, samples))("%s", (file) => {
  const section = readDrawing(file);

  test.each(Object.entries(windows))("in a %s window no level mark lies on a pipe or at another body", (_, size) => {
    const paper = paperOfWindow(size);
    const transform = zoomed(section, paper, 1, { headroom: 16 });
    const places = placesOf(section, transform);
    const pipes = pipesOf(section, transform);
    for (const system of systems) {
      const marks = sceneOf(section, paper, { system }).labels.filter(
        ({ key, leader }) => key.endsWith(" level") && leader.length > 0,
      );

      const found = marks.flatMap(({ key, part, box, leader }) => {
        const ink = [...sampled(edgeOf(box)), ...sampled(leader)];
        const shelf = [...sampled(shelfOf(leader))];
        return [
          ...places
            .filter(({ id, rect }) => id !== part && ink.some((at) => holds(higher(rect, overRim), at)))
            .map(({ id }) => `${key} at ${id}`),
          ...pipes
            .filter(({ line, half }) => shelf.some((at) => distance(at, line) < half + seen))
            .map(({ id }) => `${key} on ${id}`),
        ];
      });
      expect(found, system).toEqual([]);
    }
  });

  test.each(Object.entries(windows))("in a %s window no height stands in another body or nearer to it", (_, size) => {
    const paper = paperOfWindow(size);
    const places = placesOf(section, zoomed(section, paper, 1, { headroom: 16 }));
    for (const system of systems) {
      const { nodes } = sceneOf(section, paper, { system });
      const heights = nodes.filter(
        (node): node is LineNode => node.shape === "line" && node.key.endsWith(" rise line") && node.part !== null,
      );

      const found = heights.flatMap(({ key, part, points }) => {
        const measured = section.parts.get(part as PartId);
        const own = places.find(({ id }) => id === (measured?.kind === "pump" ? measured.in : part));
        const x = points[0]?.[0] as number;
        const line = [...sampled(points)];
        const beside = places.filter((place) => place !== own);
        return [
          ...beside.filter(({ rect }) => line.some((at) => holds(rect, at))).map(({ id }) => `${key} in ${id}`),
          ...beside
            .filter(
              ({ kind, rect }) => own?.kind === "vessel" && kind === "vessel" && away(x, rect) < away(x, own.rect),
            )
            .map(({ id }) => `${key} nearer to ${id}`),
        ];
      });
      expect(found, system).toEqual([]);
    }
  });
});
