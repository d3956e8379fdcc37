/** What a label asks for: its lines, in words more and less, and the spots it would like, best first. */
import type { PartId } from "../../hydraulics/index.ts";
import type { Rect } from "../sheet/transform.ts";
import type { Role, Weight } from "./node.ts";
import type { Mm } from "./obstacles.ts";

export interface LabelRun {
  readonly text: string;
  readonly weight: Weight;
  readonly fill: Role;
}

export interface LabelLine {
  readonly runs: readonly LabelRun[];
  readonly size: number;
  /** mm between two runs: flow and velocity read as two figures */
  readonly apart?: number;
  /** the widest it may become while the power cut plays, mm: its place does not change then */
  readonly reserve?: number;
}

export interface Spot {
  /** the point that the label hangs on */
  readonly at: Mm;
  /** which way it goes from there: left, centred, right */
  readonly across: -1 | 0 | 1;
  /** above, centred, below */
  readonly down: -1 | 0 | 1;
  /** the point it speaks of, tied by a leader */
  readonly leadFrom?: Mm;
  /** what the letters stand on, where that is hatched */
  readonly backing?: Role;
  /** what it is called when a label is held to it while its part moves; its number in the list where it has no name */
  readonly name?: string;
}

export interface LabelRequest {
  readonly key: string;
  readonly part: PartId | null;
  /** the first is tried at every spot, then the next, shorter one */
  readonly variants: readonly (readonly LabelLine[])[];
  readonly spots: readonly Spot[];
  /** more of them, further off, made only when needed */
  readonly further?: () => readonly Spot[];
  /** the one of those further off that has this name, without the others: labels are held to theirs in each frame */
  readonly furtherNamed?: (name: string) => Spot | undefined;
  /** a level: a triangle before the words, standing on a line at the level */
  readonly level?: boolean;
  /** where it would read as another's, mm: rather left out than there. Asked for only when a place is sought */
  readonly others?: () => readonly Rect[];
  /** another way to say it, before it is said in a bad place */
  readonly otherwise?: LabelRequest;
  /** what a pond or a vessel is called */
  readonly isBodyName?: boolean;
  /** its leader ties no reading to a part: others may cross it, where there is no better place */
  readonly crossable?: boolean;
  /** rather left out than in a bad place */
  readonly modest?: boolean;
  /** mm from the point it speaks of in which its leader may run over that part's own lines */
  readonly own?: number;
  /** number in the parts list, in a ring before the words */
  readonly number?: number;
}
