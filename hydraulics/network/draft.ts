/** A network while it is being made: what the builders of each kind of part write to and look up. */
import { siteOf } from "../document/defaults.ts";
import { oneLevel } from "../document/limits.ts";
import type { PartId, Section, Vent } from "../document/section.ts";
import { must } from "../must.ts";
import type { AirPointLink } from "../solver/links/airPointLink.ts";
import type { Link } from "../solver/links/link.ts";
import type { SystemNode } from "../solver/system.ts";
import type { BodyModel, Network, PumpModel } from "./network.ts";
import { type Layout, layOut } from "./pipeModel.ts";

export interface BuildOptions {
  readonly pumps: "running" | "stopped";
  /** `open`: every check valve taken for stuck open */
  readonly checkValves: "sound" | "open";
  /** gravity pipes followed as full lines */
  readonly asFull?: ReadonlySet<PartId>;
  /** vents that are credited: their tees are air points */
  readonly airPoints?: ReadonlySet<PartId>;
  /** vents that spill where water stands over their end; absent: all */
  readonly ventsShut?: boolean;
  /** places `pipe@at` where a dry leg that ends in air admits it, and the side of the cut that tees join there */
  readonly branchAir?: ReadonlyMap<string, Joins>;
  /** friction and K and pump head times these: the uncertain inputs */
  readonly scatter?: Scatter;
  /** media without loss */
  readonly clearMedia?: boolean;
  /** pipes left out */
  readonly without?: ReadonlySet<PartId>;
  /** the stand-in curve as a straight line */
  readonly straightCurves?: boolean;
}

export type Side = "from" | "to";
/** Where an air point cuts a tee: the main, with its tees on the one side or the other, or (`beyond`)
 * only the tees off. */
export type Joins = Side | "beyond";

interface Scatter {
  readonly c: number;
  readonly k: number;
  readonly head: number;
}

/** A place on a pipe that has a node. */
export interface NodePlace {
  readonly at: number;
  readonly node: number;
  /** the node on the `to` side: another one where an air point cuts the line here */
  readonly beyond: number;
  /** the node that tees into this place share */
  readonly joins: number;
}

export interface Draft {
  readonly section: Section;
  readonly site: ReturnType<typeof siteOf>;
  readonly options: BuildOptions;
  readonly scatter: Scatter;
  readonly layout: Layout;
  readonly nodes: SystemNode[];
  readonly links: Link[];
  readonly bodies: Map<PartId, BodyModel>;
  readonly pumps: Map<PartId, PumpModel>;
  readonly ventsOn: ReadonlyMap<PartId, readonly Vent[]>;
  /** by pipe, rising */
  readonly places: Map<PartId, readonly NodePlace[]>;
  /** by `teeKey` */
  readonly airPoints: Map<string, AirPointLink>;
  readonly branchAir: Network["branchAir"][number][];
  addNode(node: SystemNode): number;
  add<L extends Link>(link: L): L;
}

export const teeKey = (pipe: PartId, at: number): string => `${pipe}@${at.toFixed(6)}`;

export function beginDraft(section: Section, options: BuildOptions): Draft {
  const nodes: SystemNode[] = [];
  const links: Link[] = [];
  const layout = layOut(section, options.asFull ?? new Set(), options.without ?? new Set());
  return {
    section,
    site: siteOf(section),
    options,
    scatter: options.scatter ?? { c: 1, k: 1, head: 1 },
    layout,
    nodes,
    links,
    bodies: new Map(),
    pumps: new Map(),
    ventsOn: ventsByPipe(section, layout),
    places: new Map(),
    airPoints: new Map(),
    branchAir: [],
    addNode: (node) => nodes.push(node) - 1,
    add: (link) => {
      links.push(link);
      return link;
    },
  };
}

function ventsByPipe(section: Section, layout: Layout): Map<PartId, Vent[]> {
  const byPipe = new Map<PartId, Vent[]>();
  for (const part of section.parts.values()) {
    if (part.kind !== "vent" || !layout.pipes.has(part.on.pipe)) continue;
    const list = byPipe.get(part.on.pipe);
    if (list) list.push(part);
    else byPipe.set(part.on.pipe, [part]);
  }
  return byPipe;
}

export function bodyIn(draft: Draft, id: PartId): BodyModel {
  const model = draft.bodies.get(id);
  must(model, `${id} is no body`);
  return model;
}

/** The node that an opening at a level of a body sees. */
export function nodeAt(draft: Draft, id: PartId, level: number): number {
  const { column, surface } = bodyIn(draft, id);
  return column.find((opening) => Math.abs(opening.level - level) < oneLevel)?.node ?? surface;
}
