/** The tables between section and title block: parts, pipes, assumptions, the power cut step by step, what to see to,
 * what to take care of. They are scene nodes like everything else on the sheet; each group has its file in `groups/`. */
import type { Drawing } from "../scene/drawing.ts";
import { box, stroke } from "../scene/ink.ts";
import type { SceneNode } from "../scene/node.ts";
import type { Rect } from "../sheet/transform.ts";
import { assumptionsGroup } from "./groups/assumptions.ts";
import { careGroup } from "./groups/care.ts";
import { eventsGroup } from "./groups/events.ts";
import { findingsGroup } from "./groups/findings.ts";
import type { GroupIn, Numbers } from "./groups/group.ts";
import { partsGroup } from "./groups/parts.ts";
import { pipesGroup } from "./groups/pipes.ts";
import { columnHeight, drawColumn, itemsThatFit, type TableGroup } from "./tableColumn.ts";

interface Column {
  readonly share: number;
  readonly groups: readonly GroupIn[];
}

const columns: readonly Column[] = [
  { share: 0.22, groups: [partsGroup] },
  { share: 0.27, groups: [pipesGroup, assumptionsGroup] },
  { share: 0.275, groups: [findingsGroup] },
  { share: 0.235, groups: [careGroup] },
];

/** mm beside the words of a column */
export const side = 3;

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
