/** A check valve: a triangle against its seat, pointing where flow may pass. One stuck open is crossed out. */
import { type CheckValve, isStuckOpen } from "../../hydraulics/index.ts";
import { deviceLabel, seatOf, symbolScale } from "./device.ts";
import { nameOf, paperAt } from "./drawing.ts";
import type { SceneNode } from "./node.ts";
import type { PartDrawing } from "./part.ts";
import { checkSeat, checkTriangle, crossedOut } from "./symbols.ts";

export const checkValveDrawing: PartDrawing<CheckValve> = {
  draw: (drawing, valve) => {
    const seat = seatOf(drawing, valve);
    if (!seat) return [];
    const base = {
      part: valve.id,
      space: "site",
      layer: "devices",
      shape: "path",
      at: seat.place,
      turn: seat.turn,
      stroke: "ink",
      pen: "part",
      scale: symbolScale(drawing),
    } as const;
    const nodes: SceneNode[] = [
      { ...base, key: `${valve.id} symbol`, data: checkTriangle, fill: "sheet" },
      { ...base, key: `${valve.id} seat`, data: checkSeat },
    ];
    if (isStuckOpen(valve)) nodes.push({ ...base, key: `${valve.id} stuck`, data: crossedOut, stroke: "drains" });
    return nodes;
  },
  block: (drawing, valve, obstacles) => {
    const seat = seatOf(drawing, valve);
    if (!seat) return;
    const [x, y] = paperAt(drawing, seat.place);
    obstacles.addRect({ x: x - 2.6, y: y - 2.6, width: 5.2, height: 5.2 });
  },
  labels: (drawing, valve) => {
    const seat = seatOf(drawing, valve);
    if (!seat) return [];
    return [
      deviceLabel(drawing, valve, seat.place, 3, nameOf(valve), [isStuckOpen(valve) ? "stuck open" : "a moving part"]),
    ];
  },
};
