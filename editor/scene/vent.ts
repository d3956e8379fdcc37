/** A vent: its riser to the open end with a hood over it, and the water that stands in it while the pump runs. */
import { type Point, type Vent, ventOpen } from "../../hydraulics/index.ts";
import { formatBore, formatFlow, formatLevel } from "../sheet/units.ts";
import { deviceLabel, seatOf } from "./device.ts";
import { type Drawing, metresOf, mmOf, nameOf, paperAt } from "./drawing.ts";
import type { Pen, Role, SceneNode } from "./node.ts";
import type { PartDrawing } from "./part.ts";
import { ventHood } from "./symbols.ts";

interface Riser {
  readonly tee: Point;
  readonly foot: Point;
  readonly end: Point;
  /** the bore, or as thin as can be drawn, m */
  readonly width: number;
  /** on an upright pipe */
  readonly steep: boolean;
  /** half the pipe's bore, m */
  readonly half: number;
}

function riserOf(drawing: Drawing, vent: Vent): Riser | null {
  const seat = seatOf(drawing, vent);
  if (!seat) return null;
  const [x, z] = seat.place;
  const end = Math.max(vent.openEndZ ?? z, z);
  const level = Math.abs(Math.cos((seat.turn * Math.PI) / 180)) > 0.5;
  // On a level pipe the riser starts at the crown.
  const foot = level ? Math.min(z + seat.pipe.bore / 2, end) : z;
  return {
    tee: seat.place,
    foot: [x, foot],
    end: [x, end],
    width: Math.max(vent.bore, metresOf(drawing, 0.9)),
    steep: !level,
    half: seat.pipe.bore / 2,
  };
}

export const ventDrawing: PartDrawing<Vent> = {
  draw: (drawing, vent) => {
    const riser = riserOf(drawing, vent);
    if (!riser) return [];
    const stub = isStub(drawing, riser);
    return [
      ...(stub ? drawStub(drawing, vent, riser) : drawRiser(drawing, vent, riser)),
      ...drips(drawing, vent, riser, stub),
    ];
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
    const bore = `${formatBore(vent.bore, drawing.system)}${openText(open)}`;
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

const openText = (open: number): string =>
  open === 0 ? ", blocked" : open < 1 ? `, ${Math.round(open * 100)} % open` : "";

/** Nothing to see of a riser: the vent opens on the pipe itself. */
const isStub = (drawing: Drawing, { foot, end }: Riser): boolean => mmOf(drawing, end[1] - foot[1]) < 0.5;

const onSheet = (vent: Vent, what: string) =>
  ({ key: `${vent.id} ${what}`, part: vent.id, space: "site", layer: "devices" }) as const;

function drawRiser(drawing: Drawing, vent: Vent, riser: Riser): readonly SceneNode[] {
  const { foot, end, width } = riser;
  const leg = (what: string, top: number, stroke: Role, pen: Pen, siteWidth: number): SceneNode => ({
    ...onSheet(vent, what),
    shape: "line",
    points: [foot, [end[0], top]],
    stroke,
    pen,
    siteWidth,
  });
  const standing = standingLevel(drawing, vent, riser);
  return [
    leg("walls", end[1], "ink", "part", width + metresOf(drawing, 0.7)),
    leg("air", end[1] + metresOf(drawing, 0.05), "sheet", "hair", width),
    ...(standing > foot[1] ? [leg("water", standing, "water", "hair", width)] : []),
    { ...onSheet(vent, "hood"), shape: "path", at: end, offset: [0, -1.6], data: ventHood, stroke: "ink", pen: "part" },
  ];
}

/** A nipple with its hood: up from a level pipe, to the side of an upright one. */
function drawStub(drawing: Drawing, vent: Vent, { tee, steep, half }: Riser): readonly SceneNode[] {
  const from = mmOf(drawing, half);
  const turn = steep ? 90 : 0;
  const look = { shape: "path", at: tee, turn, stroke: "ink", pen: "part" } as const;
  return [
    { ...onSheet(vent, "stub"), ...look, data: `M0 ${-from}V${-from - 1.8}` },
    { ...onSheet(vent, "hood"), ...look, data: `M-1.7 ${-from - 3}A1.7 1.7 0 0 1 1.7 ${-from - 3}` },
  ];
}

/** What spills runs down beside the opening. */
function drips(drawing: Drawing, vent: Vent, { tee, end, steep, half }: Riser, stub: boolean): readonly SceneNode[] {
  if (drawing.moment !== null || drawing.running?.vents.get(vent.id)?.state !== "spills") return [];
  const beside = mmOf(drawing, half) + 2.2;
  const look = { shape: "path", stroke: "drains", pen: "dimension" } as const;
  if (stub && steep) {
    return [
      {
        ...onSheet(vent, "spill"),
        ...look,
        at: tee,
        data: `M${beside} 0.3C${beside + 1} 0.8 ${beside + 1.2} 2 ${beside + 1.2} 4M${beside - 0.6} 0.9V3`,
      },
    ];
  }
  return [
    {
      ...onSheet(vent, "spill"),
      ...look,
      at: end,
      data: "M-1.4 -0.2C-2.4 0.4 -2.6 1.8 -2.6 3.4M1.4 -0.2C2.4 0.4 2.6 1.8 2.6 3.4",
    },
  ];
}

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
