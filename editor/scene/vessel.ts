/** A filter vessel: walls, media at grain size, water, a few plants, its levels and what it holds. */
import { type MediaLayer, mediaOf, type PartId, type Vessel, wallsAt } from "../../hydraulics/index.ts";
import type { Rect } from "../sheet/transform.ts";
import { formatMass, formatVolume } from "../sheet/units.ts";
import { blockBody, drawSurfaceMark, drawWalls, drawWater, isWideEnough, levelBeside, levelOnWater } from "./body.ts";
import { type Drawing, mmOf, nameOf, paperAt, waterLevel } from "./drawing.ts";
import { matterOf } from "./inFault.ts";
import { lineWidth } from "./labelBox.ts";
import type { LabelLine, LabelRequest, Spot } from "./labelRequest.ts";
import { letters } from "./letters.ts";
import type { SceneNode } from "./node.ts";
import { numberOf } from "./numbers.ts";
import type { PartDrawing } from "./part.ts";
import { type Stones, seeded, stones } from "./stones.ts";

export const vesselDrawing: PartDrawing<Vessel> = {
  draw: (drawing, vessel) => [
    ...drawWater(drawing, vessel),
    ...media(drawing, vessel),
    ...plants(drawing, vessel),
    drawWalls(vessel),
    ...drawSurfaceMark(drawing, vessel),
  ],
  block: blockBody,
  labels: (drawing, vessel) => {
    const level = waterLevel(drawing, vessel);
    return [
      ...(level === null ? [] : [waterMark(drawing, vessel, level)]),
      {
        ...levelBeside(drawing, vessel, { key: `${vessel.id} rim level`, level: vessel.rimLevel, word: "rim" }),
        modest: true,
      },
      name(drawing, vessel),
    ];
  },
};

/** Beside the wall; on the water itself where there is no room beside it. */
function waterMark(drawing: Drawing, vessel: Vessel, level: number): LabelRequest {
  const word = drawing.moment === null ? "water, running" : "water";
  const beside = levelBeside(drawing, vessel, { key: `${vessel.id} water level`, level, word });
  return { ...beside, otherwise: levelOnWater(drawing, vessel, level, word) };
}

interface Slice extends MediaLayer {
  readonly from: number;
  readonly to: number;
}

/** From the base up, cut at the rim. */
function slicesOf(vessel: Vessel): readonly Slice[] {
  let from = vessel.baseLevel;
  return mediaOf(vessel).flatMap((layer) => {
    const to = Math.min(from + layer.depth, vessel.rimLevel);
    const slice = to > from ? [{ ...layer, from, to }] : [];
    from = to;
    return slice;
  });
}

/** The same layer at the same zoom has the same stones: made once. */
const made = new Map<string, Stones>();
function stonesOf(id: PartId, i: number, width: number, height: number, grain: number): Stones {
  const key = `${id} ${i} ${width.toFixed(2)} ${height.toFixed(2)} ${grain.toFixed(3)}`;
  let found = made.get(key);
  if (!found) {
    if (made.size > 2000) made.clear();
    found = stones({ width, height }, grain, `${id} ${i}`);
    made.set(key, found);
  }
  return found;
}

function media(drawing: Drawing, vessel: Vessel): readonly SceneNode[] {
  const [left, right] = wallsAt(vessel, vessel.baseLevel);
  return slicesOf(vessel).flatMap((slice, i): readonly SceneNode[] => {
    const width = mmOf(drawing, right - left);
    const height = mmOf(drawing, slice.to - slice.from);
    if (width < 3 || height < 0.8) return [];
    const { data, asDots } = stonesOf(vessel.id, i, width, height, mmOf(drawing, slice.grain));
    const base = { part: vessel.id, space: "site", layer: "bodies" } as const;
    return [
      {
        ...base,
        key: `${vessel.id} bed ${i}`,
        shape: "line",
        points: [
          [left, slice.to],
          [right, slice.to],
          [right, slice.from],
          [left, slice.from],
        ],
        closed: true,
        stroke: "none",
        fill: "stone",
        pen: "hair",
        opacity: asDots ? 0.6 : 0.3,
      },
      {
        ...base,
        key: `${vessel.id} stones ${i}`,
        shape: "path",
        at: [left, slice.to],
        data,
        stroke: asDots ? "none" : "stoneLine",
        fill: asDots ? "stoneLine" : "stone",
        pen: "hair",
        opacity: asDots ? 0.6 : 0.75,
      },
    ];
  });
}

/** Where stone is drawn, mm: words read badly on it. */
export const stoneOf = (drawing: Drawing): readonly Rect[] =>
  drawing.parts.flatMap((part) => {
    if (part.kind !== "vessel") return [];
    const top = slicesOf(part).at(-1)?.to;
    if (top === undefined) return [];
    const [left, right] = wallsAt(part, top);
    const [x, y] = paperAt(drawing, [left, top]);
    return [{ x, y, width: mmOf(drawing, right - left), height: mmOf(drawing, top - part.baseLevel) }];
  });

/** A few blades out of the top of the bed. They stand for planting, not for a kind of plant. */
function plants(drawing: Drawing, vessel: Vessel): readonly SceneNode[] {
  const top = slicesOf(vessel).at(-1)?.to;
  if (top === undefined || !isWideEnough(drawing, vessel, 12)) return [];
  const [left, right] = wallsAt(vessel, top);
  const width = mmOf(drawing, right - left);
  const tall = Math.min(mmOf(drawing, 0.28), 16);
  const random = seeded(`${vessel.id} plants`);
  const clumps = Math.max(2, Math.min(6, Math.round(width / 9)));
  let data = "";
  for (let i = 0; i < clumps; i++) {
    const x = (width * (i + 0.5 + (random() - 0.5) * 0.3)) / clumps;
    for (let blade = -1; blade <= 1; blade++) {
      const height = tall * (0.65 + 0.35 * random()) * (blade === 0 ? 1 : 0.8);
      const lean = blade * (1 + random()) * tall * 0.09;
      data += `M${n(x + blade * 0.25)} 0Q${n(x + lean * 0.3)} ${n(-height * 0.6)} ${n(x + lean)} ${n(-height)}`;
    }
  }
  return [
    {
      key: `${vessel.id} plants`,
      part: vessel.id,
      space: "site",
      layer: "bodies",
      shape: "path",
      at: [left, top],
      data,
      stroke: "plant",
      pen: "dimension",
      opacity: 0.55,
    },
  ];
}

const n = (value: number): string => String(Math.round(value * 100) / 100);

/** Under the base, else over the rim or beside. */
function name(drawing: Drawing, vessel: Vessel): LabelRequest {
  const [left, right] = wallsAt(vessel, vessel.baseLevel);
  const [x0, base] = paperAt(drawing, [left, vessel.baseLevel]);
  const x1 = paperAt(drawing, [right, vessel.baseLevel])[0];
  const rim = paperAt(drawing, [left, vessel.rimLevel])[1];
  const middle = (x0 + x1) / 2;
  const reading = drawing.running?.vessels.get(vessel.id);
  const matter = matterOf(drawing, vessel.id);
  const title: LabelLine = { size: letters.name, runs: [{ text: nameOf(vessel), weight: 600, fill: "ink" }] };
  const lines: readonly LabelLine[] = reading
    ? [
        title,
        {
          size: letters.small,
          runs: [
            {
              text:
                matter ??
                `${formatVolume(reading.grossVolume, drawing.system)} gross · ${formatMass(reading.filledMass, drawing.system)} filled`,
              weight: 400,
              fill: matter === null ? "soft" : "part",
            },
          ],
        },
      ]
    : [title];
  // On hatch the letters get a plain ground, so long as that is no wider than the plinth they stand on.
  const backed = vessel.baseLevel <= drawing.site.groundLevel + 1e-3 || Math.max(...lines.map(lineWidth)) + 7 < x1 - x0;
  const spots: Spot[] = [];
  for (const dy of [0.4, 1.2, 2.4, 13, 17]) {
    for (const dx of [0, 6, -6, 12, -12])
      spots.push({
        at: [middle + dx, base + dy],
        across: 0,
        down: 1,
        ...(dy < 3 && backed ? { backing: "ground" as const } : {}),
        // So far down it could be anything's name.
        ...(dy > 3 ? { leadFrom: [Math.min(Math.max(middle + dx, x0), x1), base] as const } : {}),
      });
  }
  for (const dy of [2, 8, 14, 18, 24]) {
    for (const dx of [0, 8, -8]) {
      spots.push({
        at: [middle + dx, rim - dy],
        across: 0,
        down: -1,
        ...(dy > 8 ? { leadFrom: [middle, rim + 2] as const } : {}),
      });
    }
  }
  return {
    key: `${vessel.id} name`,
    isBodyName: true,
    part: vessel.id,
    ...numberOf(drawing, vessel.id),
    variants: [lines, [title]],
    spots,
  };
}
