/** A spillway: its sill in the wall and the sheet of water that falls over it. */
import { type Body, drawnWidth, isBody, type Point, type Spillway, wallsAt } from "../../hydraulics/index.ts";
import { formatFlow, formatLevel } from "../sheet/units.ts";
import { spotsAround } from "./device.ts";
import { type Drawing, flowOf, metresOf, nameOf, paperAt, waterLevel } from "./drawing.ts";
import { letters } from "./letters.ts";
import { numberOf } from "./numbers.ts";
import type { PartDrawing } from "./part.ts";
import { noFlow } from "./pipeWater.ts";

interface Fall {
  readonly lip: Point;
  /** −1 to the left, +1 to the right */
  readonly side: -1 | 1;
  readonly foot: Point;
}

export const spillwayDrawing: PartDrawing<Spillway> = {
  draw: (drawing, spillway) => {
    const fall = fallOf(drawing, spillway);
    if (!fall) return [];
    const base = { part: spillway.id, space: "site", layer: "devices" } as const;
    const flow = flowOf(drawing, spillway.id) ?? 0;
    const lip = {
      ...base,
      key: `${spillway.id} lip`,
      shape: "path",
      at: fall.lip,
      data: `M${-1.8 * fall.side} 0H${2.6 * fall.side}V1.4`,
      stroke: "ink",
      pen: "outline",
    } as const;
    if (flow < noFlow) return [lip];
    return [
      lip,
      {
        ...base,
        key: `${spillway.id} sheet`,
        shape: "line",
        points: sheetOf(drawing, fall),
        stroke: "waterline",
        pen: "pipe",
        join: "round",
        cap: "round",
        opacity: 0.75,
      },
    ];
  },
  block: (drawing, spillway, obstacles) => {
    const fall = fallOf(drawing, spillway);
    if (!fall) return;
    const [x, y] = paperAt(drawing, fall.lip);
    obstacles.addRect({ x: x - 2.6, y: y - 1, width: 5.2, height: 2.6 });
    obstacles.addLine(
      sheetOf(drawing, fall).map((place) => paperAt(drawing, place)),
      0.6,
    );
  },
  labels: (drawing, spillway) => {
    const fall = fallOf(drawing, spillway);
    if (!fall) return [];
    const flow = flowOf(drawing, spillway.id);
    const title = { size: letters.small, runs: [{ text: nameOf(spillway), weight: 500, fill: "ink" }] } as const;
    const words = `crest ${formatLevel(spillway.crestZ, drawing.system)}${flow === null ? "" : ` · ${flow < noFlow ? "no flow" : formatFlow(flow, drawing.system)}`}`;
    return [
      {
        key: `${spillway.id} name`,
        part: spillway.id,
        ...numberOf(drawing, spillway.id),
        own: 4,
        variants: [[title, { size: letters.small, runs: [{ text: words, weight: 400, fill: "soft" }] }], [title]],
        spots: spotsAround(paperAt(drawing, fall.lip), 3),
      },
    ];
  },
};

function fallOf(drawing: Drawing, spillway: Spillway): Fall | null {
  const from = drawing.section.parts.get(spillway.from);
  if (!isBody(from)) return null;
  const to = spillway.to === "ground" ? undefined : drawing.section.parts.get(spillway.to);
  const [left, right] = wallsAt(from, spillway.crestZ);
  const middle = (left + right) / 2;
  const target = isBody(to) ? to.x + drawnWidth(to) / 2 : freeSide(drawing, from);
  const side = target < middle ? -1 : 1;
  const lip: Point = [side < 0 ? left : right, spillway.crestZ];
  if (!isBody(to))
    return {
      lip,
      side,
      foot: [lip[0] + side * metresOf(drawing, 6), Math.min(drawing.site.groundLevel, spillway.crestZ)],
    };
  const [toLeft, toRight] = wallsAt(to, to.rimLevel);
  const x = Math.min(
    Math.max(lip[0] + side * metresOf(drawing, 5), toLeft + metresOf(drawing, 1)),
    toRight - metresOf(drawing, 1),
  );
  return { lip, side, foot: [x, Math.min(waterLevel(drawing, to) ?? to.rimLevel, spillway.crestZ)] };
}

/** Over the ground it falls where no other body stands. */
function freeSide(drawing: Drawing, from: Body): number {
  const middle = from.x + drawnWidth(from) / 2;
  const others = drawing.parts.filter((part): part is Body => isBody(part) && part.id !== from.id);
  const onRight = others.filter((body) => body.x > middle).length;
  return onRight > others.length - onRight ? middle - 1 : middle + 1;
}

/** Out over the lip and down; where the receiving water is further off, along the ground to its rim and over it. */
function sheetOf(drawing: Drawing, { lip, side, foot }: Fall): readonly Point[] {
  const out = metresOf(drawing, 3.4) * side;
  const fall = (drop: number): readonly Point[] => {
    const bend = Math.min(drop, metresOf(drawing, 5));
    const curve = [0, 0.3, 0.6, 1].map((share): Point => [lip[0] + out * share, lip[1] - bend * share ** 2]);
    return drop > bend ? [...curve, [lip[0] + out, lip[1] - drop]] : curve;
  };
  const away = (foot[0] - lip[0] - out) * side;
  if (away < metresOf(drawing, 4)) return fall(Math.max(lip[1] - foot[1], 0));
  const bed = Math.min(Math.max(drawing.site.groundLevel + metresOf(drawing, 0.6), foot[1]), lip[1]);
  return [...fall(lip[1] - bed), [foot[0] - side * metresOf(drawing, 2), bed + metresOf(drawing, 0.3)], foot];
}
