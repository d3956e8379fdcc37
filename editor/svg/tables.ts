/** The tables between section and title block: parts, pipes, assumptions, the power cut step by step, what to see to,
 * what to take care of. They are scene nodes like everything else on the sheet. */
import {
  cautions,
  cloggingOf,
  type Finding,
  mediaOf,
  type Note,
  type PartId,
  type Pipe,
  type Pump,
  type Severity,
  type Vessel,
} from "../../hydraulics/index.ts";
import { type Drawing, nameOf } from "../scene/drawing.ts";
import { box, stroke } from "../scene/ink.ts";
import { letters } from "../scene/letters.ts";
import type { Role, SceneNode, Weight } from "../scene/node.ts";
import { noFlow } from "../scene/pipeWater.ts";
import { cutText, plainText } from "../scene/plainText.ts";
import { textWidth } from "../scene/textWidth.ts";
import { type Says, sentencesOf } from "../sheet/sentence.ts";
import type { Rect } from "../sheet/transform.ts";
import {
  formatBore,
  formatFlow,
  formatHead,
  formatLength,
  formatLevelUnit,
  formatTemperature,
  formatTime,
  formatVelocity,
  levelUnit,
  noFigure,
} from "../sheet/units.ts";
import { partsList } from "./partsList.ts";
import { type Cell, columnHeight, drawColumn, itemsThatFit, type TableGroup, type TableItem } from "./tableColumn.ts";
import { wholeText } from "./wholeText.ts";

export type Numbers = ReadonlyMap<PartId, number>;
/** A group of a table for a column of this width, mm. */
export type GroupIn = (drawing: Drawing, numbers: Numbers, width: number) => TableGroup;

interface Column {
  readonly share: number;
  readonly groups: readonly GroupIn[];
}

const columns: readonly Column[] = [
  { share: 0.22, groups: [partsGroup] },
  { share: 0.255, groups: [pipesGroup, assumptionsGroup] },
  { share: 0.28, groups: [findingsGroup] },
  { share: 0.245, groups: [careGroup] },
];

/** mm beside the words of a column */
export const side = 3;
const normal = { size: letters.small, weight: 400 } as const;

interface MadeGroup {
  readonly group: GroupIn;
  readonly table: TableGroup;
}

interface MadeColumn {
  readonly width: number;
  readonly made: readonly MadeGroup[];
}

/** Groups without items say nothing and take no room. What happens step by step stands in the shortest column; `last`,
 * where it is given, in the one that is the shortest then. */
function makeColumns(drawing: Drawing, numbers: Numbers, width: number, last?: GroupIn): readonly MadeColumn[] {
  const make = (group: GroupIn, room: number): MadeGroup => ({
    group,
    table: group(drawing, numbers, room - 2 * side),
  });
  const made = columns.map(({ share, groups }): MadeColumn => {
    const room = share * width;
    return {
      width: room,
      made: groups.map((group) => make(group, room)).filter(({ table }) => table.items.length > 0),
    };
  });
  const added = (to: readonly MadeColumn[], group: GroupIn): readonly MadeColumn[] => {
    const longer = to.map((column) => ({ ...column, made: [...column.made, make(group, column.width)] }));
    const heights = longer.map((column) => columnHeight(tablesOf(column)));
    const shortest = heights.indexOf(Math.min(...heights));
    const any = longer[shortest]?.made.at(-1)?.table.items.length !== 0;
    return to.map((column, i) => (i === shortest && any ? (longer[i] as MadeColumn) : column));
  };
  const all = added(made, eventsGroup);
  return last ? added(all, last) : all;
}

const tablesOf = ({ made }: MadeColumn): readonly TableGroup[] => made.map(({ table }) => table);

/** The columns of a first sheet whose tables are this wide, with a group more where one is given. */
export const columnsIn = (
  drawing: Drawing,
  numbers: Numbers,
  width: number,
  last?: GroupIn,
): readonly (readonly TableGroup[])[] => makeColumns(drawing, numbers, width, last).map(tablesOf);

/** What a first sheet had no room for: a group, and how many of its items it shows. */
export interface Remainder {
  readonly group: GroupIn;
  readonly from: number;
}

export interface DrawnTables {
  readonly nodes: readonly SceneNode[];
  readonly remainders: readonly Remainder[];
}

/** `last` stands on the first sheet where all of it does and cuts nothing else short; on the next one otherwise. */
export function drawTables(drawing: Drawing, numbers: Numbers, rect: Rect, last: GroupIn): DrawnTables {
  const nodes: SceneNode[] = [box("sheet tables", rect, { pen: "part", stroke: "ink", fill: "sheet" })];
  const remainders: Remainder[] = [];
  let left = rect.x;
  const full = makeColumns(drawing, numbers, rect.width, last);
  const isWhole = full.every(
    (column) => columnHeight(tablesOf(column)) <= rect.height || column.made.every(({ group }) => group !== last),
  );
  const columns = isWhole ? full : makeColumns(drawing, numbers, rect.width);
  columns.forEach((column, i) => {
    const { width, made } = column;
    const counts = itemsThatFit(tablesOf(column), rect.height);
    made.forEach(({ group, table }, g) => {
      const from = counts[g] as number;
      if (from < table.items.length) remainders.push({ group, from });
    });
    if (i > 0)
      nodes.push(
        stroke(
          `sheet column ${i} line`,
          [
            [left, rect.y],
            [left, rect.y + rect.height],
          ],
          "hair",
          "soft",
        ),
      );
    nodes.push(
      ...drawColumn(tablesOf(column), {
        rect: { ...rect, x: left + side, width: width - 2 * side },
        counts,
        next: "sheet 2",
      }),
    );
    left += width;
  });
  return { nodes, remainders: isWhole ? remainders : [...remainders, { group: last, from: 0 }] };
}

function paragraph(text: string, width: number, { indent = 0, fill = "ink" as Role } = {}): TableItem {
  return wholeText(text, width - indent, normal).map((line): readonly Cell[] => [{ x: indent, text: line, fill }]);
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

// --- parts ---------------------------------------------------------------------------------------------------

function partsGroup(drawing: Drawing, numbers: Numbers, width: number): TableGroup {
  const parts = partsList(drawing, numbers);
  const bold = { ...normal, weight: 500 } as const;
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
      const names = wholeText(part.name, nameRoom, bold);
      const whats = wholeText(part.what, width - what, normal);
      return Array.from({ length: Math.max(names.length, whats.length, 1) }, (_, i): readonly Cell[] => [
        ...(i === 0 ? [numberCell(part.number)] : []),
        ...(names[i] === undefined ? [] : [{ x: nameX, text: names[i], weight: 500 } as const]),
        ...(whats[i] === undefined ? [] : [{ x: what, text: whats[i] }]),
      ]);
    }),
  };
}

// --- pipes ---------------------------------------------------------------------------------------------------

const figureNames = ["bore", "length", "flow", "velocity", "loss"] as const;
type Figures = Readonly<Record<(typeof figureNames)[number], string>>;

function pipesGroup(drawing: Drawing, numbers: Numbers, width: number): TableGroup {
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
    items: pipes.map(
      (pipe, i): TableItem => [
        [
          numberCell(numbers.get(pipe.id)),
          // The whole name stands under its number in the list of parts.
          ...(room >= leastName
            ? [{ x: nameX, text: cutText(nameOf(pipe), room, { ...normal, weight: 500 }), weight: 500 } as const]
            : []),
          ...right(rows[i] as Figures, "ink"),
        ],
      ],
    ),
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

// --- assumptions ------------------------------------------------------------------------------------------------

function assumptionsGroup(drawing: Drawing, _: Numbers, width: number): TableGroup {
  return {
    key: "assumptions",
    title: "Assumed",
    items: assumptions(drawing).map((each) => paragraph(each, width, { fill: "soft" })),
  };
}

function assumptions({ site, system, parts }: Drawing): readonly string[] {
  const law = site.friction === "darcy-weisbach" ? "Darcy-Weisbach" : "Hazen-Williams";
  const unit = levelUnit(system) === "m" ? "metres" : "feet";
  const names = (of: readonly (Pump | Vessel)[]): string => of.map(nameOf).join(", ");
  const standIns = parts.filter((part): part is Pump => part.kind === "pump" && part.curve === undefined);
  const vessels = parts.filter((part): part is Vessel => part.kind === "vessel" && mediaOf(part).length > 0);
  const clean = vessels.filter((vessel) => cloggingOf(vessel) === 1);
  const clogged = vessels.filter((vessel) => cloggingOf(vessel) !== 1);
  return [
    `Running state: friction by ${law}, water at ${formatTemperature(site.waterTemperature, system)}; loss is friction with fittings, bends and ends.`,
    `Levels in ${unit} over the datum, ground at ${formatLevelUnit(site.groundLevel, system)}; heights and lengths at one scale.`,
    ...(parts.some((part) => part.kind === "pond")
      ? ["The ponds' levels with the pumps running are given, not found."]
      : []),
    ...(standIns.length > 0
      ? [`A parabola between greatest lift and greatest flow stands in for the curve of ${names(standIns)}.`]
      : []),
    ...(clean.length > 0 ? [`Media taken as clean: ${names(clean)}.`] : []),
    ...clogged.map(
      (vessel) => `Media of ${nameOf(vessel)} taken to lose ${cloggingOf(vessel)} times as much as clean.`,
    ),
    ...(vessels.length > 0 ? ["A filled vessel's weight is stone and water, without the vessel itself."] : []),
  ];
}

// --- the power cut ------------------------------------------------------------------------------------------------

function eventsGroup({ section, powerCut, system }: Drawing, _: Numbers, width: number): TableGroup {
  const says = sentencesOf(section, system);
  return {
    key: "events",
    title: "If the power fails, step by step",
    items: (powerCut && !powerCut.failedAt ? powerCut.events : []).map((event) =>
      paragraph(`${formatTime(event.time)}: ${says(event.text)}`, width),
    ),
  };
}

// --- findings -----------------------------------------------------------------------------------------------------

const severities: Readonly<Record<Severity, { readonly word: string; readonly fill: Role; readonly rank: number }>> = {
  failure: { word: "Failure.", fill: "drains", rank: 0 },
  warning: { word: "Warning.", fill: "part", rank: 1 },
  advice: { word: "Advice.", fill: "soft", rank: 2 },
};

function findingsGroup({ section, findings, running, system }: Drawing, _: Numbers, width: number): TableGroup {
  const worst = [...findings].sort((a, b) => severities[a.severity].rank - severities[b.severity].rank);
  const says = sentencesOf(section, system);
  const nothing = running ? "Nothing that this program looks for." : "Not solved, so nothing is known.";
  return {
    key: "findings",
    title: "To see to",
    items:
      worst.length > 0
        ? worst.map((finding) => findingItem(finding, says, width))
        : [paragraph(nothing, width, { fill: "soft" })],
    gap: 1,
  };
}

function findingItem({ severity, text, remedy }: Finding, says: Says, width: number): TableItem {
  const { word, fill } = severities[severity];
  const start = textWidth(`${word} `, normal.size, normal.weight);
  const [first = "", ...rest] = wholeText(says(text), width, normal, width - start);
  return [
    // The word in its colour, the rest of its line in ink behind it.
    [
      { x: 0, text: word, weight: 400, fill },
      { x: start, text: first, weight: 400 },
    ],
    ...rest.map((line): readonly Cell[] => [{ x: 0, text: line }]),
    ...paragraph(says(remedy), width, { indent: 2, fill: "soft" }),
  ];
}

// --- care, notes --------------------------------------------------------------------------------------------------

function careGroup(_drawing: Drawing, _: Numbers, width: number): TableGroup {
  return { key: "care", title: "Take care", items: cautions.map((each) => paragraph(each, width)), gap: 1, kept: true };
}

/** Notes in full, for those that have no room beside their place on the section. */
export const notesGroup =
  (notes: ReadonlySet<PartId>): GroupIn =>
  (drawing, _, width) => ({
    key: "notes",
    title: "Notes in full",
    items: drawing.parts
      .filter((part): part is Note => part.kind === "note" && notes.has(part.id))
      .map((note) => paragraph(plainText(note.text), width)),
    gap: 1,
  });
