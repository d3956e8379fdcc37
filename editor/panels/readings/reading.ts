/** What a part's readings are made of. */
import type { Assessment, Part, PartKind, RunningState, Section } from "../../../hydraulics/index.ts";
import type { UnitSystem } from "../../sheet/units.ts";

export interface Reading {
  readonly label: string;
  readonly value: string;
}

export interface Readings {
  /** beside the name: a regime, a verdict */
  readonly aside: string;
  readonly lines: readonly Reading[];
  /** a formula with its numbers, an assumption, a caution */
  readonly notes: readonly string[];
}

export const noReadings: Readings = { aside: "", lines: [], notes: [] };

/** A part with all that is known of it. */
export interface Given<K extends PartKind> {
  readonly section: Section;
  readonly assessment: Assessment;
  readonly running: RunningState;
  readonly part: Extract<Part, { kind: K }>;
  readonly units: UnitSystem;
}

export const line = (label: string, value: string): Reading => ({ label, value });
export const figure = (value: number, digits: number): string =>
  Number(value.toPrecision(digits)).toLocaleString("en-US");
export const whole = (value: number): string => Math.round(value).toLocaleString("en-US");
