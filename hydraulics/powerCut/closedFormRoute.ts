/** A pipe and what carries it on, for the judge by levels: a line that is drawn in several pipes, joint by joint, is
 * one route, whose highest point and whose far ends count. */
import { pipeLine } from "../document/geometry.ts";
import { joinedTo } from "../document/joints.ts";
import type { PartId, Pipe, PipeEnd, Section } from "../document/section.ts";

export interface Route {
  readonly pipes: readonly Pipe[];
  readonly ends: readonly PipeEnd[];
}

/** m, the highest axis level of its pipes, their ends included */
export const crestOfRoute = (section: Section, { pipes }: Route): number =>
  Math.max(...pipes.flatMap((pipe) => pipeLine(section, pipe).map(([, z]) => z)));

/** A pipe from one of its ends on, with those that carry it on at joints, and the ends to which they lead. */
export function routeFrom(section: Section, first: Pipe, side: "from" | "to"): Route {
  const pipes: Pipe[] = [];
  const ends: PipeEnd[] = [];
  const waiting = [{ pipe: first, by: side }];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    if (pipes.includes(next.pipe)) continue;
    pipes.push(next.pipe);
    const far = next.by === "from" ? "to" : "from";
    const { id } = next.pipe;
    const end = next.pipe[far];
    // The open end of the one that others join, and the ends of those.
    const bearer = "pipe" in end ? (["from", "to"] as const).find((at) => joins(section, end.pipe, at, id, far)) : far;
    const owner = "pipe" in end ? section.parts.get(end.pipe) : next.pipe;
    if (bearer === undefined || owner?.kind !== "pipe" || !("open" in owner[bearer])) {
      ends.push(end);
      continue;
    }
    const all = joinedTo(section, { pipe: owner.id, side: bearer });
    if (all.length === 0) ends.push(end);
    else
      for (const { pipe, side: by } of [{ pipe: owner.id, side: bearer }, ...all]) {
        const other = section.parts.get(pipe);
        if (other?.kind === "pipe" && other !== next.pipe) waiting.push({ pipe: other, by });
      }
  }
  return { pipes, ends };
}

const joins = (section: Section, main: PartId, at: "from" | "to", pipe: PartId, side: "from" | "to"): boolean =>
  joinedTo(section, { pipe: main, side: at }).some((each) => each.pipe === pipe && each.side === side);
