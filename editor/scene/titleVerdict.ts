/** The verdict in the title block: in words, in colour and in the shape of its bar, and why. */
import { stroke, words } from "./ink.ts";
import type { SheetLayout } from "./layout.ts";
import { letters } from "./letters.ts";
import type { SceneNode } from "./node.ts";
import type { Mm } from "./obstacles.ts";
import { cutText, wrapText } from "./plainText.ts";
import { textWidth } from "./textWidth.ts";
import type { SheetVerdict } from "./verdict.ts";

/** mm: the verdict's bar, and from the block's left edge to its words */
export const barWidth = 2.4;
export const pad = 5.6;
/** mm that the verdict alone takes */
export const verdictHeight = 10;

type Title = SheetLayout["title"];

/** Colour is never alone: the bar's shape says the same. */
export function verdictBar({ role, bar }: SheetVerdict, { x, y, height }: Title): readonly SceneNode[] {
  const bars: Readonly<Record<SheetVerdict["bar"], readonly (readonly Mm[])[]>> = {
    none: [],
    full: [
      [
        [x, y],
        [x + barWidth, y],
        [x + barWidth, y + height],
        [x, y + height],
      ],
    ],
    // Two leaves and the pin between them.
    hinge: [
      [
        [x, y],
        [x + barWidth, y],
        [x + barWidth, y + height * 0.44],
        [x, y + height * 0.44],
      ],
      [
        [x, y + height * 0.56],
        [x + barWidth, y + height * 0.56],
        [x + barWidth, y + height],
        [x, y + height],
      ],
    ],
    // Wide at the top, run out to a thread.
    runsOut: [
      [
        [x, y],
        [x + barWidth, y],
        [x + barWidth, y + height * 0.3],
        [x + barWidth * 0.42, y + height * 0.72],
        [x + barWidth * 0.3, y + height],
        [x, y + height],
      ],
    ],
  };
  const nodes = bars[bar].map((points, i) =>
    stroke(`sheet verdict bar ${i}`, points, "hair", "none", { closed: true, fill: role }),
  );
  if (bar !== "hinge") return nodes;
  return [
    ...nodes,
    {
      key: "sheet verdict pin",
      part: null,
      space: "paper",
      layer: "frame",
      shape: "circle",
      at: [x + barWidth / 2, y + height / 2],
      radius: 1.1,
      stroke: role,
      fill: "sheet",
      pen: "part",
    },
  ];
}

export function verdictWords(
  { words: text, reason, role }: SheetVerdict,
  { x, y, width }: Title,
  floor: number,
): readonly SceneNode[] {
  const left = x + pad + 1;
  const room = width - pad - 5;
  const [head, tail] = text.split(/, (?=by )/);
  const nodes: SceneNode[] = [];
  const size = letters.figure;
  const whole = tail === undefined ? (head as string) : `${head},`;
  nodes.push(
    words("sheet verdict", [left, y + 7.2], cutText(whole, room, { size, weight: 600 }), {
      size,
      weight: 600,
      fill: role,
    }),
  );
  if (tail !== undefined) {
    // "Holds its water," and how: both large where there is room on the line.
    const used = textWidth(whole, size, 600) + 1.4;
    nodes.push(
      words(
        "sheet verdict how",
        [left + used, y + 7.2],
        cutText(tail, room - used, { size: letters.name + 0.6, weight: 500 }),
        { size: letters.name + 0.6, weight: 500, fill: role },
      ),
    );
  }
  const lines = Math.floor((floor - y - 9.4) / 3.9);
  if (lines < 1) return nodes;
  evenly(reason, room, lines).forEach((line, i) => {
    nodes.push(words(`sheet reason ${i}`, [left, y + 12 + i * 3.9], line, { size: letters.small, fill: "soft" }));
  });
  return nodes;
}

/** In as few lines as it takes, none of them a word left over. */
function evenly(text: string, room: number, most: number): readonly string[] {
  const style = { size: letters.small, weight: 400 } as const;
  const full = wrapText(text, room, style, most);
  const left = textWidth(full.at(-1) ?? "", style.size, style.weight);
  if (full.length < 2 || left > room / 4) return full;
  for (let narrower = room * 0.96; narrower > room * 0.6; narrower -= room * 0.04) {
    const lines = wrapText(text, narrower, style, most);
    if (lines.length !== full.length || lines.some((line, i) => line.endsWith("…") !== full[i]?.endsWith("…"))) break;
    if (textWidth(lines.at(-1) as string, style.size, style.weight) > room / 4) return lines;
  }
  return full;
}
