/** A note: its words, as plain text, beside a small folded sheet. */
import type { Note } from "../../hydraulics/index.ts";
import { paperAt } from "./drawing.ts";
import type { LabelLine, Spot } from "./labelRequest.ts";
import { letters } from "./letters.ts";
import type { PartDrawing } from "./part.ts";
import { plainText, wrapText } from "./plainText.ts";
import { noteCorner } from "./symbols.ts";

const widest = 52;
const mostLines = 6;

export const noteDrawing: PartDrawing<Note> = {
  draw: (_drawing, note) => [
    {
      key: `${note.id} sheet`,
      part: note.id,
      space: "site",
      layer: "devices",
      shape: "path",
      at: [note.x, note.z],
      data: noteCorner,
      stroke: "soft",
      fill: "sheet",
      pen: "dimension",
    },
  ],
  block: (drawing, note, obstacles) => {
    const [x, y] = paperAt(drawing, [note.x, note.z]);
    obstacles.addRect({ x: x - 1.7, y: y - 2, width: 3.4, height: 4 });
  },
  labels: (drawing, note) => {
    const [x, y] = paperAt(drawing, [note.x, note.z]);
    const style = { size: letters.note, weight: 400 } as const;
    const text = plainText(note.text);
    if (text === "") return [];
    const lines = (most: number): readonly LabelLine[] =>
      wrapText(text, widest, style, most).map((line) => ({
        size: style.size,
        runs: [{ text: line, weight: style.weight, fill: "ink" }],
      }));
    const spots: Spot[] = [
      { at: [x + 1.6, y], across: 1, down: 0 },
      { at: [x - 1.6, y], across: -1, down: 0 },
      { at: [x, y - 2], across: 0, down: -1 },
      { at: [x, y + 2], across: 0, down: 1 },
    ];
    for (const away of [6, 11, 17])
      for (const [dx, dy] of [
        [1, -1],
        [-1, -1],
        [1, 1],
        [-1, 1],
      ] as const)
        spots.push({ at: [x + dx * away, y + dy * away], across: dx, down: dy, leadFrom: [x, y] });
    return [
      {
        key: `${note.id} text`,
        part: note.id,
        own: 3,
        crossable: true,
        variants: [lines(mostLines), lines(3), lines(1)],
        spots,
      },
    ];
  },
};
