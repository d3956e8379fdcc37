/** A vent: its riser to the open end with a hood over it, and the water that stands in it while the pump runs. */
import { type Point, type Vent, ventOpen } from "../../hydraulics/index.ts";
import { formatBore, formatFlow, formatLevel } from "../sheet/units.ts";
import { deviceLabel, seatOf } from "./device.ts";
import { type Drawing, metresOf, mmOf, nameOf, paperAt } from "./drawing.ts";
import type { SceneNode } from "./node.ts";
import type { PartDrawing } from "./part.ts";
import { ventHood } from "./symbols.ts";

interface Riser {
  readonly tee: Point;
  readonly foot: Point;
  readonly end: Point;
  /** the bore, or as thin as can be drawn, m */
  readonly width: number;
}

function riserOf(drawing: Drawing, vent: Vent): Riser | null {
  const seat = seatOf(drawing, vent);
  if (!seat) return null;
  const [x, z] = seat.place;
  const end = Math.max(vent.openEndZ ?? z, z);
  const level = Math.abs(Math.cos((seat.turn * Math.PI) / 180)) > 0.5;
  // On a level pipe the riser starts at the crown.
  const foot = level ? Math.min(z + seat.pipe.bore / 2, end) : z;
  return { tee: seat.place, foot: [x, foot], end: [x, end], width: Math.max(vent.bore, metresOf(drawing, 0.9)) };
}

export const ventDrawing: PartDrawing<Vent> = {
  draw: (drawing, vent) => {
    const riser = riserOf(drawing, vent);
    if (!riser) return [];
    const nodes: SceneNode[] = [];
    const base = { part: vent.id, space: "site", layer: "devices" } as const;
    const stub = mmOf(drawing, riser.end[1] - riser.foot[1]) < 0.5;
    if (stub)
      nodes.push({
        ...base,
        key: `${vent.id} stub`,
        shape: "path",
        at: riser.end,
        data: "M0 0V-2",
        stroke: "ink",
        pen: "part",
      });
    else {
      const points = [riser.foot, riser.end];
      nodes.push({
        ...base,
        key: `${vent.id} walls`,
        shape: "line",
        points,
        stroke: "ink",
        pen: "part",
        siteWidth: riser.width + metresOf(drawing, 0.7),
      });
      nodes.push({
        ...base,
        key: `${vent.id} air`,
        shape: "line",
        points: [riser.foot, [riser.end[0], riser.end[1] + metresOf(drawing, 0.05)]],
        stroke: "sheet",
        pen: "hair",
        siteWidth: riser.width,
      });
      const standing = standingLevel(drawing, vent, riser);
      if (standing > riser.foot[1])
        nodes.push({
          ...base,
          key: `${vent.id} water`,
          shape: "line",
          points: [riser.foot, [riser.end[0], standing]],
          stroke: "water",
          pen: "hair",
          siteWidth: riser.width,
        });
    }
    nodes.push({
      ...base,
      key: `${vent.id} hood`,
      shape: "path",
      at: riser.end,
      offset: [0, stub ? -3.2 : -1.6],
      data: ventHood,
      stroke: "ink",
      pen: "part",
    });
    if (drawing.moment === null && drawing.running?.vents.get(vent.id)?.state === "spills")
      nodes.push({
        ...base,
        key: `${vent.id} spill`,
        shape: "path",
        at: riser.end,
        data: "M-1.4 -0.2C-2.4 0.4 -2.6 1.8 -2.6 3.4M1.4 -0.2C2.4 0.4 2.6 1.8 2.6 3.4",
        stroke: "drains",
        pen: "dimension",
      });
    return nodes;
  },
  block: (drawing, vent, obstacles) => {
    const riser = riserOf(drawing, vent);
    if (!riser) return;
    const [x, y] = paperAt(drawing, riser.end);
    const half = mmOf(drawing, riser.width) / 2 + 0.5;
    obstacles.addLine([paperAt(drawing, riser.foot), [x, y]], half);
    obstacles.addRect({ x: x - 2.3, y: y - 4, width: 4.6, height: 4 });
  },
  labels: (drawing, vent) => {
    const riser = riserOf(drawing, vent);
    if (!riser) return [];
    const open = ventOpen(vent);
    const bore = `${formatBore(vent.bore, drawing.system)}${open < 1 ? `, ${Math.round(open * 100)} % open` : ""}`;
    const middle: Point = [riser.end[0], riser.end[1] - metresOf(drawing, 1)];
    const high = mmOf(drawing, riser.end[1] - riser.foot[1]) > 6;
    return [
      deviceLabel(drawing, vent, middle, high ? 2.6 : 4.6, nameOf(vent), [
        bore,
        ...state(drawing, vent),
        `tee ${formatLevel(riser.tee[1], drawing.system)}`,
      ]),
    ];
  },
};

/** y over the tee, never over the open end; nothing is known of it during the cut. */
function standingLevel(drawing: Drawing, vent: Vent, { tee, end }: Riser): number {
  const reading = drawing.moment === null ? drawing.running?.vents.get(vent.id) : undefined;
  return reading ? Math.min(tee[1] + reading.pressureHead, end[1]) : Number.NEGATIVE_INFINITY;
}

function state(drawing: Drawing, vent: Vent): readonly string[] {
  const reading = drawing.moment === null ? drawing.running?.vents.get(vent.id) : undefined;
  if (reading?.state === "spills") return [`spills ${formatFlow(reading.spill, drawing.system)}`];
  return reading?.state === "drawsAir" ? ["draws air"] : [];
}
