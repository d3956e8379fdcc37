/** A pond: cut earth is the ground's; here its walls, its water, its levels. */
import { type Pond, wallsAt } from "../../hydraulics/index.ts";
import { formatLevel, formatVolume } from "../sheet/units.ts";
import { blockBody, drawSurfaceMark, drawWalls, drawWater, levelBeside, levelOnWater, spotsInside } from "./body.ts";
import { type Drawing, nameOf, paperAt, waterLevel } from "./drawing.ts";
import type { LabelLine, LabelRequest } from "./labelRequest.ts";
import { letters } from "./letters.ts";
import { numberOf } from "./numbers.ts";
import type { PartDrawing } from "./part.ts";

export const pondDrawing: PartDrawing<Pond> = {
  draw: (drawing, pond) => [...drawWater(drawing, pond), drawWalls(pond), ...drawSurfaceMark(drawing, pond)],
  block: blockBody,
  labels: (drawing, pond) => {
    const level = waterLevel(drawing, pond) ?? pond.waterLevel;
    return [
      levelOnWater(drawing, pond, level, drawing.moment === null ? "water, running" : "water"),
      rim(drawing, pond),
      name(drawing, pond),
    ];
  },
};

const rim = (drawing: Drawing, pond: Pond): LabelRequest => ({
  ...levelBeside(drawing, pond, { key: `${pond.id} rim level`, level: pond.rimLevel, word: "rim" }),
  modest: true,
});

/** In the water, low; under the bed where there is no room. */
function name(drawing: Drawing, pond: Pond): LabelRequest {
  const [left, right] = wallsAt(pond, pond.bedLevel);
  const level = waterLevel(drawing, pond) ?? pond.waterLevel;
  const [x0, top] = paperAt(drawing, [left, level]);
  const [x1, bottom] = paperAt(drawing, [right, pond.bedLevel]);
  const volume = drawing.moment === null ? drawing.running?.ponds.get(pond.id)?.volume : undefined;
  const bed = `bed ${formatLevel(pond.bedLevel, drawing.system)}`;
  const title: LabelLine = { size: letters.name, runs: [{ text: nameOf(pond), weight: 600, fill: "ink" }] };
  const second = volume === undefined ? bed : `${formatVolume(volume, drawing.system)} · ${bed}`;
  const middle = (x0 + x1) / 2;
  return {
    key: `${pond.id} name`,
    isBodyName: true,
    part: pond.id,
    ...numberOf(drawing, pond.id),
    variants: [[title, { size: letters.small, runs: [{ text: second, weight: 400, fill: "soft" }] }], [title]],
    spots: [
      ...spotsInside(x0, x1, top, bottom),
      ...[2.5, 6, 10, 15].map((dy) => ({ at: [middle, bottom + dy] as const, across: 0 as const, down: 1 as const })),
    ],
  };
}
