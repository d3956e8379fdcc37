/** The tables between section and title block: parts, pipes, what to see to, what to take care of. They are scene
 * nodes like everything else on the sheet. */
import { cautions, type Finding, type PartId, type Pipe, type Severity } from "../../hydraulics/index.ts";
import { type Drawing, nameOf } from "../scene/drawing.ts";
import { box, stroke } from "../scene/ink.ts";
import { letters } from "../scene/letters.ts";
import type { Role, SceneNode, Weight } from "../scene/node.ts";
import { noFlow } from "../scene/pipeWater.ts";
import { cutText, plainText, wrapText } from "../scene/plainText.ts";
import { textWidth } from "../scene/textWidth.ts";
import type { Rect } from "../sheet/transform.ts";
import {
  formatBore,
  formatFlow,
  formatHead,
  formatLength,
  formatLevelUnit,
  formatTemperature,
  formatVelocity,
  levelUnit,
  noFigure,
} from "../sheet/units.ts";
import { partsList } from "./partsList.ts";
import { type Cell, columnHeight, drawColumn, leastHeight, type TableColumn, type TableItem } from "./tableColumn.ts";

/** Shares of the width: parts, pipes, findings, care. */
const shares = [0.22, 0.255, 0.28, 0.245] as const;
const side = 3;
const normal = { size: letters.small, weight: 400 } as const;

type Numbers = ReadonlyMap<PartId, number>;

function columnsOf(drawing: Drawing, numbers: Numbers, width: number): readonly TableColumn[] {
  const rooms = shares.map((share) => share * width - 2 * side);
  const [parts, pipes, findings, care] = rooms as [number, number, number, number];
  return [
    partsColumn(drawing, numbers, parts),
    pipesColumn(drawing, numbers, pipes),
    findingsColumn(drawing, findings),
    {
      key: "care",
      title: "Take care",
      items: [],
      tail: cautions.map((each) => paragraph(each, care)),
      gap: 1,
      more: () => "",
    },
  ];
}

/** mm that the tables take with everything in them, and with what may not fall away. */
export function tablesHeights(
  drawing: Drawing,
  numbers: Numbers,
  width: number,
): { readonly all: number; readonly least: number } {
  const columns = columnsOf(drawing, numbers, width);
  return { all: Math.max(...columns.map(columnHeight)), least: Math.max(...columns.map(leastHeight)) };
}

export function drawTables(drawing: Drawing, numbers: Numbers, rect: Rect): readonly SceneNode[] {
  let left = rect.x;
  const nodes: SceneNode[] = [box("sheet tables", rect, { pen: "part", stroke: "ink", fill: "sheet" })];
  columnsOf(drawing, numbers, rect.width).forEach((column, i) => {
    const width = rect.width * (shares[i] as number);
    if (i > 0)
      nodes.push(
        stroke(
          `sheet ${column.key} line`,
          [
            [left, rect.y],
            [left, rect.y + rect.height],
          ],
          "hair",
          "soft",
        ),
      );
    nodes.push(...drawColumn(column, { ...rect, x: left + side, width: width - 2 * side }));
    left += width;
  });
  return nodes;
}

function paragraph(text: string, width: number, { indent = 0, most = 12, fill = "ink" as Role } = {}): TableItem {
  return wrapText(plainText(text), width - indent, normal, most).map((line): readonly Cell[] => [
    { x: indent, text: line, fill },
  ]);
}

const widest = (texts: readonly string[], weight: Weight = 400): number =>
  Math.max(0, ...texts.map((text) => textWidth(text, normal.size, weight)));

/** mm between two columns of figures */
const apart = 2.2;
/** a name cut shorter says less than its number does */
const leastName = 11;
/** where names begin, after the numbers */
const nameX = 5;
const numberCell = (number: number | undefined): Cell => ({
  x: 3.4,
  text: String(number ?? ""),
  anchor: "end",
  fill: "soft",
});

function partsColumn(drawing: Drawing, numbers: Numbers, width: number): TableColumn {
  const parts = partsList(drawing, numbers);
  const nameRoom = Math.min(
    widest(
      parts.map((part) => part.name),
      500,
    ),
    width * 0.36,
  );
  const what = nameX + nameRoom + apart;
  return {
    key: "parts",
    title: "Parts",
    items: parts.map((part): TableItem => {
      const [first = "", ...rest] = wrapText(part.what, width - what, normal, 2);
      const name: Cell = { x: nameX, text: cutText(part.name, nameRoom, { ...normal, weight: 500 }), weight: 500 };
      return [[numberCell(part.number), name, { x: what, text: first }], ...rest.map((text) => [{ x: what, text }])];
    }),
    tail: [],
    more: (count) => `and ${count} more`,
  };
}

const figureNames = ["bore", "length", "flow", "velocity", "loss"] as const;
type Figures = Readonly<Record<(typeof figureNames)[number], string>>;

function pipesColumn(drawing: Drawing, numbers: Numbers, width: number): TableColumn {
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
    items: [
      ...(pipes.length > 0 ? [[right(head, "soft")]] : []),
      ...pipes.map(
        (pipe, i): TableItem => [
          [
            numberCell(numbers.get(pipe.id)),
            ...(room >= leastName
              ? [{ x: nameX, text: cutText(nameOf(pipe), room, { ...normal, weight: 500 }), weight: 500 } as const]
              : []),
            ...right(rows[i] as Figures, "ink"),
          ],
        ],
      ),
    ],
    tail: [[[]], ...assumptions(drawing).map((each) => paragraph(each, width, { fill: "soft" }))],
    more: (count) => `and ${count} more`,
  };
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
    left -= widest(rows.map((row) => row[name])) + apart;
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

function assumptions({ site, system }: Drawing): readonly string[] {
  const law = site.friction === "darcy-weisbach" ? "Darcy-Weisbach" : "Hazen-Williams";
  const unit = levelUnit(system) === "m" ? "metres" : "feet";
  return [
    `Running state: friction by ${law}, water at ${formatTemperature(site.waterTemperature, system)}; loss is friction with fittings, bends and ends.`,
    `Levels in ${unit} over the datum, ground at ${formatLevelUnit(site.groundLevel, system)}; heights and lengths at one scale.`,
    "A filled vessel's weight is stone and water, without the vessel itself.",
  ];
}

const severities: Readonly<Record<Severity, { readonly word: string; readonly fill: Role; readonly rank: number }>> = {
  failure: { word: "Failure.", fill: "drains", rank: 0 },
  warning: { word: "Warning.", fill: "part", rank: 1 },
  advice: { word: "Advice.", fill: "soft", rank: 2 },
};

function findingsColumn({ findings, running }: Drawing, width: number): TableColumn {
  const worst = [...findings].sort((a, b) => severities[a.severity].rank - severities[b.severity].rank);
  const nothing = running ? "Nothing that this program looks for." : "Not solved, so nothing is known.";
  return {
    key: "findings",
    title: "To see to",
    items:
      worst.length > 0
        ? worst.map((finding) => findingItem(finding, width))
        : [paragraph(nothing, width, { fill: "soft" })],
    tail: [],
    gap: 1,
    more: (count) =>
      count === worst.length ? `${count} findings, listed by the program` : `and ${count} more, listed by the program`,
  };
}

function findingItem({ severity, text, remedy }: Finding, width: number): TableItem {
  const { word, fill } = severities[severity];
  const [first, ...rest] = wrapText(`${word} ${plainText(text)}`, width, normal, 5);
  const after = (first ?? "").slice(word.length);
  // The word in its colour, the rest of its line in ink behind it.
  const start: readonly Cell[] = [
    { x: 0, text: word, weight: 400, fill },
    { x: textWidth(`${word} `, normal.size, normal.weight), text: after.trimStart(), weight: 400 },
  ];
  return [
    start,
    ...rest.map((line): readonly Cell[] => [{ x: 0, text: line }]),
    ...paragraph(remedy, width, { indent: 2, most: 4, fill: "soft" }),
  ];
}
