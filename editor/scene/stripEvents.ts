/** What happens in a run in time, written on the strip at its moment. */
import type { CutEvent } from "../../hydraulics/index.ts";
import { sentencesOf } from "../sheet/sentence.ts";
import type { Rect } from "../sheet/transform.ts";
import { formatTime } from "../sheet/units.ts";
import type { Drawing } from "./drawing.ts";
import { stroke, words } from "./ink.ts";
import { letters } from "./letters.ts";
import type { SceneNode } from "./node.ts";
import type { Obstacles } from "./obstacles.ts";
import { cutText, plainText, wrapText } from "./plainText.ts";
import { textWidth } from "./textWidth.ts";

/** Dashed lines; the words beside them where they are free, the first events first. */
export function stripEvents(
  drawing: Drawing,
  told: readonly CutEvent[],
  area: Rect,
  x: (time: number) => number,
  obstacles: Obstacles,
): readonly SceneNode[] {
  const style = { size: letters.small, weight: 400 } as const;
  const says = sentencesOf(drawing.section, drawing.system);
  const nodes: SceneNode[] = [];
  const row = 3.7;
  const freePlace = (lines: readonly string[], at: number): { readonly box: Rect; readonly right: boolean } | null => {
    const width = Math.max(...lines.map((line) => textWidth(line, style.size, style.weight)));
    const height = 3.1 + row * (lines.length - 1);
    const right = at + 1.2 + width < area.x + area.width;
    for (let y = area.y + 0.8; y + height <= area.y + area.height; y += row) {
      const box = { x: right ? at + 1.2 : at - 1.2 - width, y, width, height };
      if (obstacles.isFree(box)) return { box, right };
    }
    return null;
  };
  told.forEach((event, i) => {
    const at = x(event.time);
    const whole = `${formatTime(event.time)}: ${plainText(says(event.text))}`;
    nodes.push(
      stroke(
        `sheet strip event ${i}`,
        [
          [at, area.y],
          [at, area.y + area.height],
        ],
        "hair",
        "part",
        { dash: [1, 0.9] },
      ),
    );
    // Whole on a line, whole on two, else cut.
    const most = area.width * 0.62;
    const ways = [
      wrapText(whole, area.width * 0.95, style, 1),
      wrapText(whole, most, style, 2),
      [cutText(whole, most, style)],
    ];
    for (const lines of ways.filter((way, k) => k === 2 || !way.some((line) => line.endsWith("…")))) {
      const place = freePlace(lines, at);
      if (!place) continue;
      obstacles.addRect(place.box);
      lines.forEach((line, k) => {
        nodes.push(
          words(
            `sheet strip event words ${i}${k === 0 ? "" : `.${k}`}`,
            [place.right ? at + 1.2 : at - 1.2, place.box.y + 2.4 + k * row],
            line,
            {
              ...style,
              fill: "part",
              anchor: place.right ? "start" : "end",
            },
          ),
        );
      });
      break;
    }
  });
  return drawing.layout.narrow ? nodes.slice(0, 8) : nodes;
}
