/** The sheets after the first: what the tables of the first had no room for, in three columns. */

import type { SceneInput } from "../scene/build.ts";
import { type Drawing, drawingOf } from "../scene/drawing.ts";
import { drawFrame, drawPaper } from "../scene/frame.ts";
import { stroke, words } from "../scene/ink.ts";
import { letters } from "../scene/letters.ts";
import type { SceneNode } from "../scene/node.ts";
import { cutText, plainText } from "../scene/plainText.ts";
import { textWidth } from "../scene/textWidth.ts";
import type { Rect } from "../sheet/transform.ts";
import type { Numbers } from "./groups/group.ts";
import { above, drawGroupTitle, drawItem, groupGap, headHeight, itemHeight, type TableGroup } from "./tableColumn.ts";
import { type Remainder, side } from "./tables.ts";

const columns = 3;
const footHeight = 12;

/** One list of nodes a sheet, its foot (which says how many sheets there are) apart. */
export function continuationSheets(
  input: SceneInput,
  numbers: Numbers,
  remainders: readonly Remainder[],
): readonly (readonly SceneNode[])[] {
  const drawing = drawingOf(input);
  const { frame } = drawing.layout;
  const width = frame.width / columns;
  const groups = remainders.map(({ group, from }) => ({ table: group(drawing, numbers, width - 2 * side), from }));
  const flow = new Flow({ ...frame, height: frame.height - footHeight });
  for (const { table, from } of groups) flow.add(table, from);
  const { sheets } = flow;
  return sheets.map((nodes, i) => [
    drawPaper(drawing),
    ...drawFrame(drawing),
    ...lines(frame),
    ...foot(drawing, `sheet ${i + 2} of ${sheets.length + 1}`),
    ...nodes,
  ]);
}

/** Items from column to column and from sheet to sheet. */
class Flow {
  readonly sheets: SceneNode[][] = [];
  readonly #area: Rect;
  #column = columns;
  #y = 0;

  constructor(area: Rect) {
    this.#area = area;
  }

  add(group: TableGroup, from: number): void {
    if (from >= group.items.length) return;
    this.#y += groupGap;
    let begun = false;
    group.items.slice(from).forEach((item, i) => {
      const height = itemHeight(item, group.gap);
      if (!begun || this.#y + height > this.#floor) {
        if (begun || this.#column === columns || this.#y + headHeight(group) + height > this.#floor) this.#nextColumn();
        const title = from > 0 || begun ? `${group.title}, continued` : group.title;
        this.#draw(drawGroupTitle({ ...group, key: `${group.key} ${i}` }, title, [this.#left, this.#y]));
        this.#y += headHeight(group);
        begun = true;
      }
      this.#draw(drawItem(`sheet ${group.key} ${i}`, item, [this.#left, this.#y]));
      this.#y += height;
    });
  }

  get #left(): number {
    return this.#area.x + (this.#column * this.#area.width) / columns + side;
  }

  get #floor(): number {
    return this.#area.y + this.#area.height;
  }

  #draw(nodes: readonly SceneNode[]): void {
    this.sheets.at(-1)?.push(...nodes);
  }

  #nextColumn(): void {
    this.#column += 1;
    if (this.#column >= columns) {
      this.sheets.push([]);
      this.#column = 0;
    }
    this.#y = this.#area.y + above;
  }
}

function lines(frame: Rect): readonly SceneNode[] {
  const floor = frame.y + frame.height - footHeight;
  const upright = Array.from({ length: columns - 1 }, (_, i) => {
    const x = frame.x + ((i + 1) * frame.width) / columns;
    return stroke(
      `sheet column ${i} line`,
      [
        [x, frame.y],
        [x, floor],
      ],
      "hair",
      "soft",
    );
  });
  return [
    ...upright,
    stroke(
      "sheet foot line",
      [
        [frame.x, floor],
        [frame.x + frame.width, floor],
      ],
      "part",
      "ink",
    ),
  ];
}

function foot({ section, layout: { frame }, input }: Drawing, which: string): readonly SceneNode[] {
  const y = frame.y + frame.height - 4.4;
  const right = frame.x + frame.width - 3.4;
  const { date } = input.view;
  const about = [which, ...(date ? [plainText(date)] : []), "an estimate, not a licensed design"].join(" · ");
  const style = { size: letters.name, weight: 600 } as const;
  const room = frame.width - textWidth(about, letters.small, 400) - 12;
  return [
    words("sheet name", [frame.x + side, y], cutText(plainText(section.title) || "Untitled", room, style), style),
    words("sheet about", [right, y], about, { size: letters.small, fill: "soft", anchor: "end" }),
  ];
}
