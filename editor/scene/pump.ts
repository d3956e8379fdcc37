/** A pump: the circle with its triangle, pointing where it delivers (ISO 14617). */
import { type Point, type Pump, pipeLine, pumpSpeed } from "../../hydraulics/index.ts";
import { formatHead, formatPower } from "../sheet/units.ts";
import { spotsAround, symbolScale } from "./device.ts";
import { type Drawing, nameOf, paperAt } from "./drawing.ts";
import { matterOf, wordRole } from "./inFault.ts";
import type { LabelLine } from "./labelRequest.ts";
import { letters } from "./letters.ts";
import { numberOf } from "./numbers.ts";
import type { PartDrawing } from "./part.ts";
import { pumpRadius, pumpTriangle } from "./symbols.ts";

const radiusOf = (drawing: Drawing): number => pumpRadius * symbolScale(drawing);

export const pumpDrawing: PartDrawing<Pump> = {
  draw: (drawing, pump) => {
    const at: Point = [pump.x, pump.z];
    const radius = radiusOf(drawing);
    const base = { part: pump.id, space: "site", layer: "devices", at } as const;
    return [
      {
        ...base,
        key: `${pump.id} circle`,
        shape: "circle",
        radius,
        stroke: "ink",
        fill: "sheet",
        pen: "part",
      },
      {
        ...base,
        key: `${pump.id} triangle`,
        shape: "path",
        data: pumpTriangle,
        scale: symbolScale(drawing),
        turn: deliversTowards(drawing, pump),
        stroke: "ink",
        pen: "part",
      },
    ];
  },
  block: (drawing, pump, obstacles) => {
    const [x, y] = paperAt(drawing, [pump.x, pump.z]);
    const radius = radiusOf(drawing);
    obstacles.addRect({ x: x - radius, y: y - radius, width: 2 * radius, height: 2 * radius });
  },
  labels: (drawing, pump) => {
    const title: LabelLine = { size: letters.note, runs: [{ text: nameOf(pump), weight: 500, fill: "ink" }] };
    const words = wordsOf(drawing, pump);
    const second: LabelLine = {
      size: letters.small,
      runs: [{ text: words, weight: 400, fill: wordRole(drawing, pump.id) }],
    };
    const [x, y] = paperAt(drawing, [pump.x, pump.z]);
    const radius = radiusOf(drawing);
    const beside = [
      { at: [x + radius, y] as const, across: 1 as const, down: 0 as const },
      { at: [x - radius, y] as const, across: -1 as const, down: 0 as const },
      { at: [x, y + radius] as const, across: 0 as const, down: 1 as const },
    ];
    return [
      {
        key: `${pump.id} name`,
        part: pump.id,
        ...numberOf(drawing, pump.id),
        own: radius + 1,
        variants: words === "" ? [[title]] : [[title, second], [title]],
        spots: [...beside, ...spotsAround([x, y], radius)],
      },
    ];
  },
};

/** Degrees clockwise from up, to the next point of the pipe at its outlet. */
function deliversTowards({ parts, section }: Drawing, pump: Pump): number {
  for (const part of parts) {
    if (part.kind !== "pipe" || !("part" in part.from) || part.from.part !== pump.id) continue;
    const [a, b] = pipeLine(section, part);
    if (a && b) return (Math.atan2(b[0] - a[0], b[1] - a[1]) * 180) / Math.PI;
  }
  return 0;
}

const hasPipe = ({ parts }: Drawing, { id }: Pump): boolean =>
  parts.some((part) => part.kind === "pipe" && [part.from, part.to].some((end) => "part" in end && end.part === id));

function atMoment(drawing: Drawing, pump: Pump, moment: number): string {
  const { played } = drawing;
  if (!played || played.pumpsStop) return "stopped";
  const dry = played.events.some(({ code, part, time }) => code === "pumpDry" && part === pump.id && time <= moment);
  return dry ? "runs dry" : ["runs", matterOf(drawing, pump.id)].filter(Boolean).join(", ");
}

function wordsOf(drawing: Drawing, pump: Pump): string {
  if (pumpSpeed(pump) === 0) return "off";
  if (drawing.moment !== null) return atMoment(drawing, pump, drawing.moment);
  const reading = drawing.running?.pumps.get(pump.id);
  if (!hasPipe(drawing, pump)) return "no pipe on it";
  const watts = pump.watts === undefined ? [] : [formatPower(pump.watts)];
  if (!reading) return watts.join(" · ");
  const states = {
    delivers: `lifts ${formatHead(reading.head, drawing.system)}`,
    shutOff: "lifts too high to deliver",
    dry: "runs dry",
    off: "off",
    loose: "no pipe on it",
    beyondCurve: "beyond its curve",
  } as const;
  return [...watts, states[reading.state]].join(" · ");
}
