/** One single fault of section 9 and what it comes to. */
import type { Part, PartId, Point } from "../document/section.ts";
import type { CutEvent, CutHistory, PowerCut } from "../powerCut/powerCut.ts";

export type Outcome = "harmless" | "nuisance" | "water lost" | "fish at risk";

/** What tells the faults of a drawing apart. */
export interface FaultKey {
  /** stable code: `powerCut`, `checkValveStuck`, `ventBlocked`, `returnBlocked` … */
  readonly fault: string;
  readonly part: PartId | null;
}

export interface FaultResult extends FaultKey {
  /** in words */
  readonly title: string;
  /** where a line came apart; null for any other fault */
  readonly place: Point | null;
  /** m³ left in all ponds together */
  readonly pondLeft: number;
  /** share of the start, 0…1, of the pond left with least */
  readonly pondShareLeft: number;
  /** m of water over that pond's bed */
  readonly pondDepthLeft: number;
  readonly pondLevelLeft: number | null;
  /** m³ left, by vessel */
  readonly vesselLeft: ReadonlyMap<PartId, number>;
  /** m³ */
  readonly lostToGround: number;
  readonly timeToHalfPond: number | null;
  readonly timeToPumpDry: number | null;
  readonly duration: number;
  /** the pumps stand still in it: a power cut with something besides */
  readonly pumpsStop: boolean;
  /** the parts that the fault changes or adds, as they stand in it: a valve shut, a plug in a return, the two pieces of
   * a line; `sectionInFault` puts them into the drawing */
  readonly changed: readonly Part[];
  /** its own power cut, with a verdict for every vessel, where the pumps stand still in it; null where they run on */
  readonly cut: PowerCut | null;
  /** vessels that end under what their outlets leave */
  readonly drained: readonly PartId[];
  /** bodies that run over their rim in it */
  readonly overRim: readonly PartId[];
  readonly outcome: Outcome;
  readonly reason: string;
  readonly events: readonly CutEvent[];
  readonly history: CutHistory;
  /** parts concerned where a step did not converge: the run ends there, and `reason` says so */
  readonly failedAt: readonly PartId[] | null;
}
