/** The section document in memory: what one drawing says, nothing derived.
 *
 * All numbers are SI; x runs to the right, z is the level above the site datum. Optional fields stay
 * absent here, so that writing a document gives back what was read; `defaults.ts` says what an absent
 * field means. Parts live in a Map by id (undo is one patch, and an id such as `constructor` is just an
 * id); `rank` keeps the file's order, because undoing a removal puts a part last in a Map. */

declare const partIdBrand: unique symbol;
/** 1 to 40 of a-z, 0-9 and `-`, unique in a section. */
export type PartId = string & { readonly [partIdBrand]: true };
export const partId = (text: string): PartId => text as PartId;

export type Point = readonly [x: number, z: number];

export interface Site {
  readonly groundLevel?: number;
  /** °C */
  readonly waterTemperature?: number;
  readonly friction?: "hazen-williams" | "darcy-weisbach";
  readonly freeboard?: number;
  /** money per kWh */
  readonly tariff?: number;
  readonly currency?: string;
}

interface Common {
  readonly id: PartId;
  /** Place in the file's order; never written. */
  readonly rank: number;
  readonly label?: string;
}

export interface Pond extends Common {
  readonly kind: "pond";
  /** left edge at the rim */
  readonly x: number;
  readonly width: number;
  readonly length: number;
  readonly bedLevel: number;
  readonly rimLevel: number;
  readonly waterLevel: number;
  /** horizontal per vertical, on all four sides */
  readonly sideSlope?: number;
}

export interface MediaLayer {
  readonly depth: number;
  readonly grain: number;
  readonly porosity: number;
}

export type Plan =
  | { readonly shape: "round"; readonly diameter: number }
  | { readonly shape: "rectangle"; readonly width: number; readonly length: number };

export interface Vessel extends Common {
  readonly kind: "vessel";
  readonly x: number;
  readonly plan: Plan;
  readonly baseLevel: number;
  readonly rimLevel: number;
  readonly media?: readonly MediaLayer[];
  readonly clogging?: number;
  /** `ground` or the id of the body it spills into */
  readonly overflow?: "ground" | PartId;
}

export interface Pump extends Common {
  readonly kind: "pump";
  readonly x: number;
  /** the intake's level; of a pump beside the water, its axis */
  readonly z: number;
  readonly in?: PartId;
  readonly outletBore?: number;
  /** [m³/s, m] rising in flow, falling in head */
  readonly curve?: readonly (readonly [flow: number, head: number])[];
  readonly maxFlow?: number;
  readonly maxHead?: number;
  readonly watts?: number;
  readonly stoppedK?: number;
  readonly speed?: number;
}

export type Mouth = "side" | "down" | "up";

/** An opening in a body, on a pump, in another pipe, or in the air over the ground. */
export type PipeEnd =
  | { readonly part: PartId; readonly x?: number; readonly z?: number; readonly mouth?: Mouth }
  | { readonly pipe: PartId; readonly at: number }
  | { readonly open: true; readonly x: number; readonly z: number };

export type FittingType = "elbow90" | "elbow45" | "swept90" | "teeRun" | "teeBranch" | "strainer" | "other";
export interface FittingEntry {
  readonly type: FittingType;
  /** only with `other` */
  readonly k?: number;
  readonly count: number;
}

export type Material = "pvc" | "pe" | "hose" | "corrugated" | "copper" | "galvanised";

export interface Pipe extends Common {
  readonly kind: "pipe";
  readonly from: PipeEnd;
  readonly to: PipeEnd;
  readonly route?: readonly Point[];
  readonly bore: number;
  readonly nominal?: string;
  readonly material?: Material;
  readonly hazenWilliamsC?: number;
  readonly roughness?: number;
  readonly bends?: "auto" | "none";
  readonly extraLength?: number;
  readonly fittings?: readonly FittingEntry[];
}

/** A place on a pipe, `at` metres along its drawn line from its `from` end. */
export interface OnPipe {
  readonly pipe: PartId;
  readonly at: number;
}

export interface Valve extends Common {
  readonly kind: "valve";
  readonly on: OnPipe;
  readonly type?: "ball" | "gate";
  readonly open?: number;
  readonly role?: "throttle" | "flush";
}

export interface CheckValve extends Common {
  readonly kind: "checkValve";
  readonly on: OnPipe;
  readonly stuckOpen?: boolean;
  readonly openingHead?: number;
}

export interface Vent extends Common {
  readonly kind: "vent";
  readonly on: OnPipe;
  readonly bore: number;
  readonly open?: number;
  /** at or above the pipe's level there; absent: a bare valve on the pipe */
  readonly openEndZ?: number;
}

export interface Spillway extends Common {
  readonly kind: "spillway";
  readonly from: PartId;
  readonly to: "ground" | PartId;
  readonly crestZ: number;
  readonly width: number;
  readonly crest?: "sharp" | "broad";
}

export interface Note extends Common {
  readonly kind: "note";
  readonly x: number;
  readonly z: number;
  readonly text: string;
}

export type Part = Pond | Vessel | Pump | Pipe | Valve | CheckValve | Vent | Spillway | Note;
export type PartKind = Part["kind"];
export type Body = Pond | Vessel;

export interface Section {
  readonly title: string;
  readonly site: Site;
  readonly parts: ReadonlyMap<PartId, Part>;
}

/** One thing wrong with a file: where, what was wanted, what stood there. */
export interface Problem {
  /** such as `parts[3].curve[2]`; `` for the file as a whole */
  readonly path: string;
  readonly expected: string;
  readonly found: string;
}

/** What a number of the file measures, as far as its unit hangs on it. */
export type Measure = "level" | "length" | "bore" | "head" | "flow" | "power" | "temperature" | "share" | "number";

/** How the figures in a problem's words are written: as the file has them, or in the units that a reader is shown. */
export interface Amounts {
  /** a figure with its unit */
  one(value: number, measure: Measure): string;
  /** both ends of a range */
  range(min: number, max: number, measure: Measure): string;
  /** what stood where another was wanted */
  found(value: number, measure: Measure): string;
}

export type Result<T, E> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: E };
