/** Pipes that carry each other on: `{open}` at an end of one, and an end of another as a tee at that very place.
 *
 *      a ──────────●────── b          a.to: {open} · b.from: {pipe: a, at: a's full length}
 *
 * A tee at `at` 0 or at the full length of another pipe is a joint (format notes): the joint closes that end, so that a
 * reducer, or a line in two makes, can be drawn. An end with a joint is not open to the air: nothing runs out there and
 * no air comes in, as long as a pipe is joined to it, shut or not. Two or more pipes may join at one end. */
import { lineLength, pipeLine } from "./geometry.ts";
import { samePlace } from "./limits.ts";
import type { PartId, Section } from "./section.ts";

export interface JoinedEnd {
  readonly pipe: PartId;
  readonly side: "from" | "to";
}

type ByEnd = Readonly<Record<JoinedEnd["side"], readonly JoinedEnd[]>>;

const none: readonly JoinedEnd[] = [];
const known = new WeakMap<Section, ReadonlyMap<PartId, ByEnd>>();

/** The ends of other pipes at an end of a pipe. */
export function joinedTo(section: Section, { pipe, side }: JoinedEnd): readonly JoinedEnd[] {
  const joints = known.get(section) ?? jointsIn(section);
  known.set(section, joints);
  return joints.get(pipe)?.[side] ?? none;
}

function jointsIn(section: Section): ReadonlyMap<PartId, ByEnd> {
  const joints = new Map<PartId, Record<JoinedEnd["side"], JoinedEnd[]>>();
  for (const pipe of section.parts.values()) {
    if (pipe.kind !== "pipe") continue;
    for (const side of ["from", "to"] as const) {
      const end = pipe[side];
      const main = "pipe" in end ? section.parts.get(end.pipe) : undefined;
      if (!("pipe" in end) || main?.kind !== "pipe") continue;
      const atStart = end.at < samePlace;
      if (!atStart && end.at <= lineLength(pipeLine(section, main)) - samePlace) continue;
      const ends = joints.get(main.id) ?? { from: [], to: [] };
      joints.set(main.id, ends);
      ends[atStart ? "from" : "to"].push({ pipe: pipe.id, side });
    }
  }
  return joints;
}
