import type { Draft } from "immer";
import {
  lineLength,
  type PartId,
  type Pipe,
  type PipeEnd,
  type Point,
  pipeLine,
  type Section,
} from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import type { Changed, Refusal } from "../edit.ts";
import { act } from "./act.ts";
import { endAt, leadingBack, openAt } from "./endAt.ts";
import { even } from "./rounded.ts";

export interface EndMove {
  readonly at: Point;
  readonly reach: number;
  /** nothing catches the end: it is let go in air, or hangs where it is in its body */
  readonly free?: boolean;
}

/** Moves one end of a pipe: onto a pump, into a wall, into another pipe, or off all of them. */
export function movePipeEnd(section: Section, id: PartId, which: "from" | "to", move: EndMove): Changed {
  const pipe = section.parts.get(id);
  if (pipe?.kind !== "pipe") return { ok: false, why: "Only a pipe has ends to move." };
  const wish = { at: move.at, reach: move.reach, pipe: id, which };
  const end: PipeEnd = move.free ? openAt(move.at) : endAt(section, wish);
  const back = !move.free && "open" in end ? leadingBack(section, wish) : null;
  if (back)
    return {
      ok: false,
      why:
        back.id === id
          ? `${partName(pipe)} can not end in itself.`
          : `${partName(pipe)} can not end in ${partName(back)}, which hangs on it.`,
    };
  return setPipeEnd(section, id, which, end, move.at);
}

/** Gives a pipe's end its place; the leg next to it gives way so that right angles stay right angles.
 * @param at where the hand set it down; without it, where the end comes to lie */
export function setPipeEnd(section: Section, id: PartId, which: "from" | "to", end: PipeEnd, at?: Point): Changed {
  const pipe = section.parts.get(id);
  if (pipe?.kind !== "pipe") return { ok: false, why: "Only a pipe has ends to move." };
  const line = pipeLine(section, pipe);
  const was = (which === "from" ? line[0] : line.at(-1)) as Point;
  const label = `Move an end of ${partName(pipe)}`;
  const place =
    at ??
    placeOf(
      act(section, label, (draft) => put(draft, id, which, end)),
      id,
      which,
    );
  const changed = act(section, label, (draft) => {
    const route = put(draft, id, which, end)?.route;
    if (!route || route.length === 0 || !place) return;
    const index = which === "from" ? 0 : route.length - 1;
    const next = route[index] as [number, number];
    const across = Math.abs(next[0] - was[0]);
    const up = Math.abs(next[1] - was[1]);
    // A leg that stood upright follows sideways, a level one follows up and down; with a single point
    // between the ends this keeps both legs square.
    if (across < up / 5) route[index] = [even(place[0] + (next[0] - was[0])), next[1]];
    else if (up < across / 5) route[index] = [next[0], even(place[1] + (next[1] - was[1]))];
  });
  if (!changed.ok || !changed.edit) return changed;
  const now = changed.section.parts.get(id);
  return (now?.kind === "pipe" && whyTooShort(changed.section, now)) || changed;
}

/** m: of less nobody cuts a pipe */
const shortest = 0.005;

export const whyTooShort = (section: Section, pipe: Pipe): Refusal | null =>
  lineLength(pipeLine(section, pipe)) < shortest
    ? { ok: false, why: "A pipe of no length can not be built: leave its ends apart." }
    : null;

function put(draft: Draft<Section>, id: PartId, which: "from" | "to", end: PipeEnd): Draft<Pipe> | null {
  const target = draft.parts.get(id);
  if (target?.kind !== "pipe") return null;
  if (JSON.stringify(target[which]) !== JSON.stringify(end)) target[which] = end as Draft<PipeEnd>;
  return target;
}

/** Where an end lies once it has settled: an opening keeps to its wall. */
function placeOf(changed: Changed, id: PartId, which: "from" | "to"): Point | null {
  const pipe = changed.ok ? changed.section.parts.get(id) : undefined;
  if (!changed.ok || pipe?.kind !== "pipe") return null;
  return pipeLine(changed.section, pipe).at(which === "from" ? 0 : -1) ?? null;
}
