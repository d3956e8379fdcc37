/** The network stage's types: a section as nodes and links, and which of them belong to which part. */
import type { JoinedEnd } from "../document/joints.ts";
import type {
  Body,
  CheckValve,
  FittingType,
  PartId,
  Pipe,
  Point,
  Pump,
  Section,
  Spillway,
  Valve,
  Vent,
} from "../document/section.ts";
import type { AirPointLink } from "../solver/links/airPointLink.ts";
import type { BedLink } from "../solver/links/bedLink.ts";
import type { FullLink } from "../solver/links/fullLink.ts";
import type { GravityLink } from "../solver/links/gravityLink.ts";
import type { Link } from "../solver/links/link.ts";
import type { MouthLink } from "../solver/links/mouthLink.ts";
import type { PumpLink } from "../solver/links/pumpLink.ts";
import type { RimLink } from "../solver/links/rimLink.ts";
import type { SpillLink } from "../solver/links/spillLink.ts";
import type { SpillwayLink } from "../solver/links/spillwayLink.ts";
import type { SystemNode } from "../solver/system.ts";

export interface Opening {
  readonly body: PartId;
  readonly mouth: "side" | "up" | "down";
  /** the axis of a side mouth, the end itself of one that faces up or down */
  readonly level: number;
  /** the level at which it is just uncovered */
  readonly edge: number;
}

export type PipeEndModel =
  | { readonly kind: "body"; readonly opening: Opening; readonly place: Point }
  | { readonly kind: "pump"; readonly pump: PartId; readonly place: Point }
  | { readonly kind: "tee"; readonly pipe: PartId; readonly at: number; readonly place: Point; readonly joint: boolean }
  | { readonly kind: "air"; readonly place: Point; readonly facing: "level" | "upright" }
  /** drawn open, and carried on by the pipes that join it (`document/joints.ts`) */
  | { readonly kind: "joint"; readonly place: Point; readonly joins: readonly JoinedEnd[] };

/** A loss at a place along a pipe. */
export interface Bears {
  readonly at: number;
  readonly kForward: number;
  readonly kBackward: number;
  readonly what: "fitting" | "bend" | "valve" | "checkValve" | "teeRun" | "teeBranch" | "bore";
  /** how many of a listed fitting there are; 1 of all else */
  readonly count: number;
  readonly fitting?: FittingType;
  /** degrees, of a bend */
  readonly turn?: number;
  readonly valve?: Valve | CheckValve;
}

export interface PipeModel {
  readonly pipe: Pipe;
  readonly line: readonly Point[];
  readonly drawn: number;
  readonly extra: number;
  readonly from: PipeEndModel;
  readonly to: PipeEndModel;
  readonly runs: "full" | "gravity";
  readonly group: number;
  readonly bears: readonly Bears[];
  readonly shutAt: readonly number[];
  readonly checks: readonly { readonly valve: CheckValve; readonly at: number }[];
  readonly valves: readonly { readonly valve: Valve; readonly at: number }[];
  readonly stretches: readonly StretchModel[];
  /** full lines only */
  readonly mouthFrom: MouthLink | null;
  readonly mouthTo: MouthLink | null;
}

export interface StretchModel {
  readonly start: number;
  readonly end: number;
  readonly i: number;
  readonly j: number;
  readonly link: FullLink | GravityLink;
}

export interface PumpModel {
  readonly pump: Pump;
  readonly inlet: number;
  readonly outlet: number;
  readonly link: PumpLink | null;
  /** where it stands in the water */
  readonly intake: MouthLink | null;
  readonly loose: boolean;
  readonly outletBore: number;
}

export interface VentModel {
  readonly vent: Vent;
  readonly pipe: PartId;
  readonly at: number;
  readonly place: Point;
  readonly teeLevel: number;
  readonly endLevel: number;
  /** on a full line: the node at its tee (the `from` side of the cut where it is an air point); else -1 */
  readonly node: number;
  readonly spill: SpillLink | null;
  readonly airPoint: AirPointLink | null;
  readonly spillsTo: PartId | "ground";
}

export interface BodyModel {
  readonly body: Body;
  readonly surface: number;
  readonly rim: RimLink;
  /** openings inside the media of a vessel, from below, each with its node */
  readonly column: readonly { readonly level: number; readonly node: number }[];
  readonly beds: readonly BedLink[];
}

export interface BranchAir {
  readonly link: AirPointLink;
  readonly pipe: PartId;
  readonly at: number;
  /** the side of the cut that tees join; `beyond` where the main is whole and the cut lies between it and them */
  readonly joins: "from" | "to" | "beyond";
}

export interface Network {
  readonly section: Section;
  readonly nodes: readonly SystemNode[];
  readonly links: readonly Link[];
  readonly bodies: ReadonlyMap<PartId, BodyModel>;
  readonly pipes: ReadonlyMap<PartId, PipeModel>;
  readonly pumps: ReadonlyMap<PartId, PumpModel>;
  readonly vents: ReadonlyMap<PartId, VentModel>;
  readonly spillways: ReadonlyMap<PartId, { readonly spillway: Spillway; readonly link: SpillwayLink }>;
  /** air points at tees that a dry leg opens to the air */
  readonly branchAir: readonly BranchAir[];
}
