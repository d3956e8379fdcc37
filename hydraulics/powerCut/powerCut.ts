/** What a simulated power cut (or start-up, or restart) is, as values. SI throughout. */
import type { PartId } from "../document/section.ts";

export type Verdict = "held" | "drains";
export type HeldBy = "geometry" | "movingPart" | "nothing";
export type VentRating = "ample" | "marginal" | "tooSmall" | "notUsed";

export interface CutVessel {
  readonly verdict: Verdict;
  readonly heldBy: HeldBy;
  readonly startLevel: number;
  readonly finalLevel: number;
  readonly highestLevel: number;
  readonly restingLevel: number;
  /** litres that left it, net */
  readonly litresOut: number;
  readonly overtops: boolean;
  /** s until it is down to the mouth that let it go; null where it never is */
  readonly timeToMouth: number | null;
  /** two or three sentences for a builder, with levels */
  readonly reason: string;
}

export interface CutPond {
  readonly startLevel: number;
  readonly finalLevel: number;
  readonly highestLevel: number;
  readonly overflows: boolean;
  /** m³ over its rim */
  readonly overflowVolume: number;
}

export interface CutVent {
  readonly rating: VentRating;
  /** Qa / Q; null where nothing flows past it under suction */
  readonly airToWater: number | null;
  readonly ampleBore: number | null;
}

export type EventCode =
  | "pumpStops"
  | "mouthUncovered"
  | "mouthCovered"
  | "siphonBroken"
  | "levelsMeet"
  | "ventSpills"
  | "ventStops"
  | "lineStops"
  | "returnStops"
  | "spillwayStops"
  | "rimPassed"
  | "rimLeft"
  | "columnParts"
  | "columnsFall"
  | "checkValveShuts"
  | "settled"
  | "pumpDry"
  | "pumpStarts"
  | "returnRuns"
  | "other";

export interface CutEvent {
  /** s */
  readonly time: number;
  readonly part: PartId;
  readonly code: EventCode;
  readonly text: string;
}

/** Levels against time, one array a body, all as long as `times`. */
export interface CutHistory {
  readonly times: readonly number[];
  readonly levels: ReadonlyMap<PartId, readonly number[]>;
  /** m³/s at the pipe's `from` end, positive towards `to`; spillways from their body */
  readonly flows: ReadonlyMap<PartId, readonly number[]>;
}

export interface PowerCut {
  readonly settled: boolean;
  readonly duration: number;
  /** m³ */
  readonly lostToGround: number;
  readonly vessels: ReadonlyMap<PartId, CutVessel>;
  readonly ponds: ReadonlyMap<PartId, CutPond>;
  readonly vents: ReadonlyMap<PartId, CutVent>;
  readonly events: readonly CutEvent[];
  readonly history: CutHistory;
  /** |in + out + lost + stored| / total water */
  readonly balanceError: number;
  /** m³ that fell back out of emptied legs, by body */
  readonly columns: ReadonlyMap<PartId, number>;
  /** parts concerned where a step did not converge; the run ends there and nothing else is to be believed */
  readonly failedAt: readonly PartId[] | null;
}
