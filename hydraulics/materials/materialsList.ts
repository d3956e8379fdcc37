/** What has to be bought for a drawing: pipe by size with stock lengths and offcuts, fittings counted from the
 * drawing, valves, bulkheads, stone by layer, vessels and pumps.
 *
 * Lengths are the drawing's, axis to axis, the listed extra length with them: what a fitting takes off a pipe's end is
 * left in as allowance. */
import { valveType } from "../document/defaults.ts";
import type { Part, Pipe, Section } from "../document/section.ts";
import { throughWalls } from "./bulkheads.ts";
import { Counted } from "./counted.ts";
import { fittingsOn } from "./fittings.ts";
import { type MaterialOptions, pipeRows } from "./pipes.ts";
import { riserRows } from "./risers.ts";
import type { MaterialRow } from "./row.ts";
import { mm, sizeOn } from "./sizeWords.ts";
import { stoneRows } from "./stone.ts";
import { vesselRows } from "./vessels.ts";

export function materialsList(section: Section, options: MaterialOptions = {}): readonly MaterialRow[] {
  const parts = [...section.parts.values()].sort((a, b) => a.rank - b.rank);
  const pipes = parts.filter((part): part is Pipe => part.kind === "pipe");
  const counted = new Counted();
  for (const pipe of pipes) {
    fittingsOn(section, pipe, counted);
    for (const end of [pipe.from, pipe.to]) throughWalls(section, pipe, end, counted);
  }
  for (const part of parts) countPiece(section, part, counted);
  return [
    ...pipeRows(section, pipes, options, counted),
    ...riserRows(section),
    ...counted.rows(),
    ...stoneRows(section),
    ...vesselRows(section),
  ];
}

/** What is bought by the piece for a part itself. */
function countPiece(section: Section, part: Part, counted: Counted): void {
  switch (part.kind) {
    case "valve":
      counted.add("valve", `${valveType(part)} valve, ${sizeOn(section, part.on.pipe)}`, part.id);
      break;
    case "checkValve":
      counted.add("valve", `check valve, ${sizeOn(section, part.on.pipe)}`, part.id);
      break;
    case "vent": {
      const branch = `a branch of ${mm(part.bore)}`;
      counted.add("fitting", `tee for a breather, ${sizeOn(section, part.on.pipe)} with ${branch}`, part.id);
      break;
    }
    case "spillway":
      counted.add("sill", `sill, ${part.width} m wide`, part.id);
      break;
    case "pump": {
      const what = part.watts === undefined ? "pump" : `pump of ${part.watts} W`;
      counted.add("pump", what, part.id, ` ${part.id}`);
      break;
    }
    default:
      break;
  }
}
