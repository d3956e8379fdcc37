import type { Draft } from "immer";
import {
  lineLength,
  type Part,
  type Pipe,
  type PipeEnd,
  type Point,
  pipeLine,
  type Section,
} from "../../../hydraulics/index.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { endAt, openAt } from "./endAt.ts";
import { idFor, nextRank } from "./newPart.ts";
import { routeBetween } from "./routeBetween.ts";

export interface PipeWish {
  readonly from: Point;
  readonly to: Point;
  readonly reach: number;
  /** straight from end to end instead of at right angles */
  readonly straight?: boolean;
  /** nothing catches its ends */
  readonly free?: boolean;
}

/** Sizes to begin with: what a pump's hose and a gravity return usually are. */
const fed = { bore: 0.0284, nominal: "PVC-U metric, SDR 21 (PN 10), 32", material: "pvc" } as const;
const gravity = { bore: 0.057, nominal: "PVC-U metric, SDR 21 (PN 10), 63", material: "pvc" } as const;

/** Pulls a pipe from one place to another; each end takes what it finds there. */
export function placePipe(section: Section, wish: PipeWish): Changed {
  const end = (which: "from" | "to"): PipeEnd =>
    wish.free ? openAt(wish[which]) : endAt(section, { at: wish[which], reach: wish.reach, which });
  const [from, to] = [end("from"), end("to")];
  if ("part" in from && "part" in to && from.part === to.part && section.parts.get(from.part)?.kind === "pump") {
    return { ok: false, why: "A pipe needs two ends: pull it from one opening to another." };
  }
  const pipe = newPipe(section, from, to, wish);
  if (lineLength(pipeLine(withPipe(section, pipe), pipe)) < 0.02)
    return { ok: false, why: "A pipe needs two ends: pull it from one opening to another." };
  return act(section, "Pull a pipe", (draft) => {
    draft.parts.set(pipe.id, pipe as Draft<Part>);
  });
}

function newPipe(section: Section, from: PipeEnd, to: PipeEnd, wish: PipeWish): Pipe {
  const bare: Pipe = {
    id: idFor(section, "pipe"),
    rank: nextRank(section),
    kind: "pipe",
    from,
    to,
    ...freshPipe(section, from, to),
  };
  if (wish.straight) return bare;
  // Laid by the places the user let go at: the ends' own places depend on the route (an opening lies in
  // the wall that the next point of the route is nearer to).
  const route = routeBetween(section, from, place(section, from, wish.from), to, place(section, to, wish.to));
  return route.length === 0 ? bare : { ...bare, route };
}

/** What a pipe between two ends is called and how wide it is before anybody says otherwise. */
export function freshPipe(
  section: Section,
  from: PipeEnd,
  to: PipeEnd,
): Pick<Required<Pipe>, "label" | "bore" | "nominal" | "material"> {
  const feeds = "part" in from && section.parts.get(from.part)?.kind === "pump";
  return { label: nameFor(section, feeds, to), ...(feeds ? fed : gravity) };
}

function place(section: Section, end: PipeEnd, wished: Point): Point {
  if ("open" in end) return [end.x, end.z];
  if ("part" in end) {
    const part = section.parts.get(end.part);
    if (part?.kind === "pump") return [part.x, part.z];
    return [end.x ?? wished[0], end.z ?? wished[1]];
  }
  return wished;
}

function nameFor(section: Section, feeds: boolean, to: PipeEnd): string {
  const word = feeds ? "Supply" : "part" in to && section.parts.get(to.part)?.kind === "pond" ? "Return" : "Pipe";
  const count = [...section.parts.values()].filter(
    (part) => part.kind === "pipe" && (part.label ?? "").startsWith(word),
  ).length;
  return count === 0 ? word : `${word} ${count + 1}`;
}

/** As it would be with a pipe that is new or another: to see where it comes to lie. */
export const withPipe = (section: Section, pipe: Pipe): Section => ({
  ...section,
  parts: new Map(section.parts).set(pipe.id, pipe),
});
