/** What a kind of fault is: which cases of it a drawing has. One file a kind, listed in `index.ts`. */
import type { PartId, Point, Section } from "../document/section.ts";
import type { PowerCut } from "../powerCut/powerCut.ts";
import type { Steady } from "../solver/steady.ts";

/** The drawn state, solved, that a fault comes on top of. */
export interface SurveyStart {
  readonly state: Steady;
  readonly powerCut: PowerCut;
}

export interface Drawn extends SurveyStart {
  readonly section: Section;
}

export interface FaultCase {
  /** in words, without a full stop: `Power cut with Breather blocked` */
  readonly title: string;
  readonly part: PartId | null;
  /** where a line comes apart */
  readonly place?: Point;
  /** the drawing with the fault in it */
  readonly section: Section;
  /** the pumps stop, or run on */
  readonly run: "powerCut" | "pumped";
  /** bodies that do not start where the drawing has them */
  readonly levels?: ReadonlyMap<PartId, number>;
  /** m³ that the fault itself brings in (rain) */
  readonly brings?: number;
  /** m³ of it that found no room and went over the rim at once, by pond */
  readonly spilt?: ReadonlyMap<PartId, number>;
  /** pipes that run full without a pump */
  readonly asFull?: ReadonlySet<PartId>;
  /** simulated already */
  readonly known?: PowerCut;
}

export interface FaultKind {
  /** stable */
  readonly code: string;
  readonly cases: (drawn: Drawn) => readonly FaultCase[];
}
