/** Which pieces a drawing is made of, in the order in which they are painted within a layer: the sheet's own, and one or
 * two a part. It tells what there is to draw, not what it looks like, so most drags leave it as it was. Empty pieces are
 * pieces too: that there is nothing to draw need not be found out again in each frame. */
import { isBody, type Part, type PartId, type Pipe } from "../../hydraulics/index.ts";
import type { Drawing } from "./drawing.ts";
import { joinedPipes } from "./joinedPipes.ts";

export interface Slot {
  /** stable across pictures; unique in one */
  readonly key: string;
  /** whose it is; none where it is the sheet's */
  readonly parts: readonly PartId[];
  readonly draws: OfParts | OfSheet;
}

type OfParts = "plinth" | "part" | "pipes" | "labels";
type OfSheet =
  | "paper"
  | "earth"
  | "ground"
  | "grade line"
  | "dimensions"
  | "scale"
  | "ruler"
  | "parted mark"
  | "frame"
  | "strip"
  | "title";

export interface Outline {
  readonly slots: readonly Slot[];
  /** places in the list of what is drawn of a part */
  readonly of: ReadonlyMap<PartId, readonly number[]>;
  /** places of what belongs to no part */
  readonly ofSheet: readonly number[];
}

export function outlineOf({ parts }: Drawing): Outline {
  const sheet = (draws: OfSheet): Slot => ({ key: `sheet ${draws}`, parts: [], draws });
  const pipes = parts.filter((part): part is Pipe => part.kind === "pipe");
  const bodies = parts.filter(isBody);
  const slots: readonly Slot[] = [
    sheet("paper"),
    sheet("earth"),
    ...bodies.map(({ id }): Slot => ({ key: `plinth ${id}`, parts: [id], draws: "plinth" })),
    sheet("ground"),
    ...parts.flatMap(({ id, kind }): readonly Slot[] =>
      kind === "pipe" ? [] : [{ key: `part ${id}`, parts: [id], draws: "part" }],
    ),
    ...joinedPipes(pipes).map(
      (group): Slot => ({ key: `pipes ${(group[0] as Pipe).id}`, parts: group.map(({ id }) => id), draws: "pipes" }),
    ),
    sheet("grade line"),
    sheet("dimensions"),
    ...parts.map(({ id }): Slot => ({ key: `labels ${id}`, parts: [id], draws: "labels" })),
    sheet("scale"),
    sheet("ruler"),
    sheet("parted mark"),
    sheet("frame"),
    sheet("strip"),
    sheet("title"),
  ];
  const of = new Map<PartId, number[]>();
  const ofSheet: number[] = [];
  for (const [place, slot] of slots.entries()) {
    if (slot.parts.length === 0) ofSheet.push(place);
    for (const id of slot.parts) {
      const places = of.get(id);
      if (places) places.push(place);
      else of.set(id, [place]);
    }
  }
  return { slots, of, ofSheet };
}

/** Whether both drawings have one outline: the same parts in the same order, and pipes that tee into the same ones. */
export const haveSameOutline = ({ parts: a }: Drawing, { parts: b }: Drawing): boolean =>
  a === b || (a.length === b.length && b.every((part, i) => takesPlaceOf(part, a[i] as Part)));

const takesPlaceOf = (part: Part, other: Part): boolean =>
  part === other ||
  (part.id === other.id &&
    part.kind === other.kind &&
    (part.kind !== "pipe" || other.kind !== "pipe" || sameTees(part, other)));

const sameTees = (a: Pipe, b: Pipe): boolean => teeOf(a.from) === teeOf(b.from) && teeOf(a.to) === teeOf(b.to);
const teeOf = (end: Pipe["from"]): PartId | null => ("pipe" in end ? end.pipe : null);
