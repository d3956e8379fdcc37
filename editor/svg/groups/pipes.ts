import type { Pipe } from "../../../hydraulics/index.ts";
import { type Drawing, nameOf } from "../../scene/drawing.ts";
import type { Role } from "../../scene/node.ts";
import { noFlow } from "../../scene/pipeWater.ts";
import { cutText } from "../../scene/plainText.ts";
import { textWidth } from "../../scene/textWidth.ts";
import { formatBore, formatFlow, formatHead, formatLength, formatVelocity, noFigure } from "../../sheet/units.ts";
import type { Cell, TableGroup, TableItem } from "../tableColumn.ts";
import { wholeText } from "../wholeText.ts";
import { apart, bold, nameX, normal, numberCell } from "./cells.ts";
import type { Numbers } from "./group.ts";

/** a name cut shorter says less than its number does */
const leastName = 11;
const figureNames = ["bore", "length", "flow", "velocity", "loss"] as const;
type Figures = Readonly<Record<(typeof figureNames)[number], string>>;

export function pipesGroup(drawing: Drawing, numbers: Numbers, width: number): TableGroup {
  const pipes = drawing.parts.filter((part): part is Pipe => part.kind === "pipe");
  const head = Object.fromEntries(figureNames.map((name) => [name, name])) as unknown as Figures;
  const rows = pipes.map((pipe) => pipeFigures(drawing, pipe));
  const { edges, left } = rightEdges([head, ...rows], width);
  const right = (figures: Figures, fill: Role): readonly Cell[] =>
    figureNames.map((name): Cell => ({ x: edges[name], text: figures[name], anchor: "end", fill }));
  const room = left - nameX - apart;
  return {
    key: "pipes",
    title: "Pipes",
    head: right(head, "soft"),
    items: pipes.map((pipe, i): TableItem => {
      const [first, ...more] = nameLines(nameOf(pipe), room).map((text): Cell => ({ x: nameX, text, weight: 500 }));
      return [
        [numberCell(numbers.get(pipe.id)), ...(first ? [first] : []), ...right(rows[i] as Figures, "ink")],
        ...more.map((cell): readonly Cell[] => [cell]),
      ];
    }),
  };
}

/** Word under word; a word with no room is cut, for the whole name stands under its number in the list of parts. */
function nameLines(name: string, room: number): readonly string[] {
  if (room < leastName) return [];
  const fits = name.split(" ").every((word) => textWidth(word, bold.size, bold.weight) <= room);
  return fits ? wholeText(name, room, bold) : [cutText(name, room, bold)];
}

/** Figures of unequal width stand in line by their right edge. */
function rightEdges(
  rows: readonly Figures[],
  width: number,
): { readonly edges: Readonly<Record<keyof Figures, number>>; readonly left: number } {
  const edges = {} as Record<keyof Figures, number>;
  let left = width;
  for (const name of [...figureNames].reverse()) {
    edges[name] = left;
    left -= rows.reduce((most, row) => Math.max(most, textWidth(row[name], normal.size, 400)), 0) + apart;
  }
  return { edges, left: left + apart };
}

function pipeFigures({ running, system }: Drawing, pipe: Pipe): Figures {
  const bore = formatBore(pipe.bore, system);
  const reading = running?.pipes.get(pipe.id);
  if (!reading) return { bore, length: noFigure, flow: noFigure, velocity: noFigure, loss: noFigure };
  const length = formatLength(reading.length, system);
  if (Math.abs(reading.flow) < noFlow) return { bore, length, flow: "at rest", velocity: "", loss: "" };
  return {
    bore,
    length,
    flow: formatFlow(Math.abs(reading.flow), system),
    velocity: formatVelocity(Math.abs(reading.velocity), system),
    loss: formatHead(Math.abs(reading.frictionLoss + reading.fittingLoss), system),
  };
}
