/** A valve: a bow tie, filled where it is shut, with its hand. */
import { type Valve, valveOpen } from "../../hydraulics/index.ts";
import { deviceLabel, seatOf, symbolScale } from "./device.ts";
import { nameOf, paperAt } from "./drawing.ts";
import { ownerOf } from "./inFault.ts";
import type { SceneNode } from "./node.ts";
import type { PartDrawing } from "./part.ts";
import { bowTie, valveHand } from "./symbols.ts";

export const valveDrawing: PartDrawing<Valve> = {
  draw: (drawing, valve) => {
    const seat = seatOf(drawing, valve);
    if (!seat) return [];
    const shut = valveOpen(valve) === 0;
    const base = {
      part: valve.id,
      space: "site",
      layer: "devices",
      shape: "path",
      at: seat.place,
      turn: upright(seat.turn),
      stroke: "ink",
      pen: "part",
      scale: symbolScale(drawing),
    } as const;
    const nodes: SceneNode[] = [
      { ...base, key: `${valve.id} hand`, data: valveHand },
      { ...base, key: `${valve.id} symbol`, data: bowTie, fill: shut ? "ink" : "sheet" },
    ];
    return nodes;
  },
  block: (drawing, valve, obstacles) => {
    const seat = seatOf(drawing, valve);
    if (!seat) return;
    const [x, y] = paperAt(drawing, seat.place);
    obstacles.addRect({ x: x - 3, y: y - 3.4, width: 6, height: 6.4 });
  },
  labels: (drawing, valve) => {
    const seat = seatOf(drawing, valve);
    return seat
      ? [deviceLabel(drawing, valve, seat.place, 3.4, nameOf(valve), isPlug(valve) ? [] : [openText(valve)])]
      : [];
  },
};

/** What blocks a pipe in a fault says so by its name. */
const isPlug = ({ id }: Valve): boolean => ownerOf(id) !== id;

/** The hand stands up on a level pipe, whichever way it is drawn. */
const upright = (turn: number): number => (turn > 90 ? turn - 180 : turn < -90 ? turn + 180 : turn);

function openText(valve: Valve): string {
  const open = valveOpen(valve);
  return open === 0 ? "shut" : open === 1 ? "open" : `${Math.round(open * 100)} % open`;
}
