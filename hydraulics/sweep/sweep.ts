/** What would change it: one drawing in many variants, each solved as if it stood alone. A row is what `assess`
 * says of that variant and nothing else (test/sweep holds rows and single solves equal); a variant that is no
 * drawing leaves a gap with its reason. */
import { type Assessed, assess } from "../assess.ts";
import { pipeMaterial } from "../document/defaults.ts";
import type { PartId, Pipe, Result, Section } from "../document/section.ts";
import { sizeSeries } from "../formulas/sizes.ts";
import type { SweptField } from "./numberFields.ts";
import { withNumber, withSize } from "./withNumber.ts";

export interface Variant {
  /** SI; for a series of sizes the bore */
  readonly value: number;
  /** for a size its name; else empty */
  readonly name: string;
  /** made when its turn comes: a sweep that is stopped has not made the rest */
  readonly section: () => Result<Section, string>;
}

export type SweepVerdict = "geometry" | "movingPart" | "drains" | "none";

export interface SweepFigures {
  /** m³/s of all pumps together */
  readonly flow: number;
  /** m/s in the pipe that is watched, or in the fastest one */
  readonly velocity: number;
  readonly velocityIn: PartId | null;
  /** least of all vessels; null where nothing is delivered to one */
  readonly margin: number | null;
  /** money a year, of all pumps together; null where no pump says its watts */
  readonly cost: number | null;
  readonly verdict: SweepVerdict;
  readonly failures: number;
}

export type SweepRow = { readonly value: number; readonly name: string } & (
  | ({ readonly ok: true } & SweepFigures)
  | { readonly ok: false; readonly reason: string }
);

export interface SweepRange {
  readonly from: number;
  readonly to: number;
  readonly steps: number;
}

/** Evenly from one end to the other, both ends among them. Whole numbers stay whole and come once. */
export function sweptValues({ from, to, steps }: SweepRange, whole = false): readonly number[] {
  if (steps < 2 || from === to) return [from];
  const values = Array.from({ length: steps }, (_, k) =>
    Number((from + ((to - from) * k) / (steps - 1)).toPrecision(12)),
  );
  return whole ? [...new Set(values.map(Math.round))] : values;
}

export const variantsOf = (section: Section, field: SweptField, range: SweepRange): readonly Variant[] =>
  sweptValues(range, field.whole).map((value) => ({
    value,
    name: "",
    section: () => withNumber(section, field, value),
  }));

/** A pipe in every size of a series; the series by its name. */
export function sizeVariants(section: Section, pipe: PartId, seriesName: string): readonly Variant[] {
  const series = sizeSeries.find(({ name }) => name === seriesName);
  return (series?.sizes ?? []).map((size) => ({
    value: size.bore,
    name: size.name,
    section: () =>
      withSize(section, pipe, {
        bore: size.bore,
        nominal: `${seriesName}, ${size.name}`,
        material: series?.material ?? "pvc",
      }),
  }));
}

/** Names of the series that a pipe may be bought in, those of its own material first. */
export function seriesFor(pipe: Pipe): readonly string[] {
  const own = pipeMaterial(pipe);
  return [...sizeSeries]
    .sort((a, b) => Number(b.material === own) - Number(a.material === own))
    .map(({ name }) => name);
}

/** One row after the other, so that who waits can stop. */
export function* sweep(variants: readonly Variant[], watched: PartId | null = null): Generator<SweepRow> {
  for (const { value, name, section: make } of variants) {
    const section = make();
    if (!section.ok) yield { value, name, ok: false, reason: section.error };
    else yield { value, name, ...figuresOf(section.value, assess(section.value, { quick: true }), watched) };
  }
}

type Figures = ({ readonly ok: true } & SweepFigures) | { readonly ok: false; readonly reason: string };

/** The figures of one assessed drawing that a row shows. */
export function figuresOf(
  section: Section,
  { running, powerCut, findings }: Pick<Assessed, "running" | "powerCut" | "findings">,
  watched: PartId | null,
): Figures {
  if (!running.converged) return { ok: false, reason: "the running state was not found" };
  const pumps = [...running.pumps.values()];
  const costs = pumps.flatMap(({ yearlyCost }) => (yearlyCost === null ? [] : [yearlyCost]));
  const margins = [...running.vessels.values()].flatMap(({ returnMargin }) =>
    returnMargin === null ? [] : [returnMargin],
  );
  const fastest = fastestPipe(section, running.pipes, watched);
  return {
    ok: true,
    flow: pumps.reduce((sum, { flow }) => sum + Math.max(0, flow), 0),
    velocity: fastest?.velocity ?? 0,
    velocityIn: fastest?.id ?? null,
    margin: margins.length > 0 ? Math.min(...margins) : null,
    cost: costs.length > 0 ? costs.reduce((a, b) => a + b, 0) : null,
    verdict: worstVerdict([...(powerCut?.vessels.values() ?? [])]),
    failures: findings.filter(({ severity }) => severity === "failure").length,
  };
}

function fastestPipe(
  section: Section,
  pipes: ReadonlyMap<PartId, { readonly velocity: number }>,
  watched: PartId | null,
): { readonly id: PartId; readonly velocity: number } | null {
  const part = watched === null ? undefined : section.parts.get(watched);
  const own = part && "on" in part ? part.on.pipe : part?.id;
  const reading = own === undefined ? undefined : pipes.get(own);
  if (own !== undefined && reading) return { id: own, velocity: reading.velocity };
  let fastest: { id: PartId; velocity: number } | null = null;
  for (const [id, { velocity }] of pipes) if (!fastest || velocity > fastest.velocity) fastest = { id, velocity };
  return fastest;
}

function worstVerdict(
  vessels: readonly { readonly verdict: "held" | "drains"; readonly heldBy: "geometry" | "movingPart" | "nothing" }[],
): SweepVerdict {
  if (vessels.length === 0) return "none";
  if (vessels.some(({ verdict }) => verdict === "drains")) return "drains";
  return vessels.some(({ heldBy }) => heldBy === "movingPart") ? "movingPart" : "geometry";
}
