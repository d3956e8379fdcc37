/** What the reader lets through. Generous: a limit keeps out slips of the unit (millimetres for metres) and
 * what no formula here was made for, not unusual ponds. The bores, lengths and levels are the format's;
 * the rest is chosen here, no source. */

import type { Measure } from "./section.ts";

/** A range of a number, in the words of its refusal. */
export interface Range {
  /** with its article: `a bore` */
  readonly what: string;
  readonly min: number;
  readonly max: number;
  readonly measure: Measure;
  /** what the file's own figures mean, where a reader in other units is told shares of a hundred */
  readonly inFile?: string;
}

const range = (what: string, min: number, max: number, measure: Measure = "number", inFile?: string): Range => ({
  what,
  min,
  max,
  measure,
  ...(inFile === undefined ? {} : { inFile }),
});

export const ranges = {
  level: range("a level", -100, 100, "level"),
  x: range("a place", -10_000, 10_000, "length"),
  bore: range("a bore", 0.001, 2, "bore"),
  /** plan sizes of ponds and vessels, widths of sills */
  size: range("a size", 0.001, 10_000, "length"),
  length: range("a length", 0, 10_000, "length"),
  at: range("a distance along the pipe", 0, 10_000, "length"),
  waterTemperature: range("a temperature", 0, 40, "temperature"),
  freeboard: range("a freeboard", 0, 10, "length"),
  tariff: range("a price per kWh", 0, 100_000),
  sideSlope: range("a slope, horizontal per vertical,", 0, 100),
  layerDepth: range("a depth", 0.001, 100, "length"),
  grain: range("a grain size", 1e-5, 1, "bore"),
  /** A bed of 0 passes nothing and one of 1 is no bed; Ergun's equation divides by its cube. */
  porosity: range("a porosity", 0.01, 0.99, "share"),
  /** Over 0, so that the bed keeps a slope at rest. */
  clogging: range("a clogging factor (1 is clean)", 0.01, 1e6),
  flow: range("a flow", 0, 100, "flow"),
  greatestFlow: range("a greatest flow", 1e-7, 100, "flow"),
  head: range("a head", 0, 1000, "head"),
  greatestHead: range("a greatest head", 0.001, 1000, "head"),
  /** Over 0, because efficiency is a quotient by it. Who does not know it leaves it out. */
  watts: range("a power (left out where it is not known)", 0.01, 1e7, "power"),
  coefficient: range("a loss coefficient", 0, 1e6),
  speed: range("a speed", 0, 10, "share", "(0 is off, 1 is the curve as given)"),
  hazenWilliamsC: range("a Hazen-Williams factor", 10, 300),
  roughness: range("a roughness", 0, 0.1, "bore"),
  count: range("a whole number", 0, 1000),
  share: range("a share open", 0, 1, "share", "(0 shut, 1 open)"),
  openingHead: range("an opening head", 0, 100, "head"),
} as const satisfies Record<string, Range>;

export const most = {
  /** bytes of UTF-8 */
  fileSize: 16 * 1024 * 1024,
  parts: 20_000,
  routePoints: 200,
  curvePoints: 200,
  layers: 100,
  fittings: 200,
  /** characters of a label, a note, a title */
  text: 400,
  /** how deep lists and objects may lie in each other in a file */
  nesting: 64,
  /** problems listed of one file */
  problems: 100,
} as const;

/** Two places on a pipe nearer than this are one place; a pipe shorter than this has no length. m */
export const samePlace = 1e-6;

/** m within which two openings of a body lie at one level */
export const oneLevel = 1e-9;
