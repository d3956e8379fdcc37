/** New parts under the hand, told as `drag` tells what is dragged: the change, what it snapped to, the level it takes.
 * The ghost under the pointer, the pipe that is being pulled and what is set down in the end are one and the same. */
import {
  isDevice,
  nearestOnLine,
  type Part,
  type PartId,
  type Point,
  pipeLine,
  type Section,
} from "../../hydraulics/index.ts";
import { placeDevice } from "../state/actions/placeDevice.ts";
import { placePipe } from "../state/actions/placePipe.ts";
import type { Changed } from "../state/edit.ts";
import { freshParts } from "../state/freshParts.ts";
import type { Tool } from "../state/view.ts";
import { type Dragged, type DragWish, snappedTo } from "./drag.ts";
import { deviceAt, lineOf } from "./grip.ts";
import { placeTool } from "./placing.ts";
import { edgeMarks, type Guide, type Lines, levelMarks, linesOf, marksAt, type Snapped } from "./snap.ts";

const nothingMoves: ReadonlySet<PartId> = new Set();

/** A part from the stencils at a place. Some take only a part of the wish: a pond is dug into the ground wherever the
 * hand is near it, a spillway is cut into the rim. A guide is shown where the part really came to it. */
export function dragTool(section: Section, tool: Exclude<Tool, "pipe">, wish: DragWish): Dragged {
  const [x, z] = wish.at;
  const first = placeTool(section, tool, wish.at, wish.reach);
  const free = partOf(section, first);
  if (!free) return { changed: first, guides: [], figure: null };
  const on = "on" in free.part ? free.part.on.pipe : null;
  const lines = linesAt(free);
  const sx = snappedTo("x", lines.x, edgeMarks(section, nothingMoves), wish);
  // A device goes along its pipe: a round level would shift it off the place that the hand means.
  const sz = snappedTo(
    "z",
    lines.z,
    levelMarks(section, on === null ? nothingMoves : new Set([on])),
    on === null ? wish : { ...wish, grid: { ...wish.grid, step: 0 } },
  );
  const at: Point = [x + sx.by, z + sz.by];
  const line = on === null ? null : lineOf(section, on);
  const snapped =
    line && isDevice(free.part)
      ? placeDevice(section, free.part.kind, free.part.on.pipe, nearestOnLine(line, at).at)
      : placeTool(section, tool, at, wish.reach);
  const changed = snapped.ok ? snapped : first;
  const fresh = partOf(section, changed) ?? free;
  const came = linesAt(fresh);
  const level = came.z[0];
  return {
    changed,
    guides: cameTrue([sx, sz], came),
    figure: level === undefined ? null : { kind: "level", value: level, at: [came.x[0] ?? x, level] },
  };
}

/** The end of a pipe that is not there yet: its first before anything is pressed, or its second while it is pulled. */
export function dragFreshEnd(section: Section, from: Point | null, wish: DragWish): Dragged {
  // Level with it, or over it: whether the pipe between them goes straight hangs on what catches them.
  const square = from ? marksAt(from, "its first end") : { x: [], z: [] };
  const sx = snappedTo("x", [wish.at[0]], square.x, wish);
  const sz = snappedTo("z", [wish.at[1]], [...levelMarks(section, nothingMoves), ...square.z], wish);
  const at: Point = [wish.at[0] + sx.by, wish.at[1] + sz.by];
  if (!from)
    return {
      changed: { ok: true, section, edit: null },
      guides: cameTrue([sx, sz], { x: [at[0]], z: [at[1]] }),
      figure: { kind: "level", value: at[1], at },
    };
  const changed = placePipe(section, { from, to: at, reach: wish.reach * 1.4, straight: wish.loose });
  const pipe = partOf(section, changed);
  const end = pipe?.part.kind === "pipe" ? (pipeLine(pipe.section, pipe.part).at(-1) as Point) : null;
  return {
    changed,
    guides: end ? cameTrue([sx, sz], { x: [end[0]], z: [end[1]] }) : [],
    figure: end ? { kind: "level", value: end[1], at: end } : null,
  };
}

interface Fresh {
  readonly section: Section;
  readonly part: Part;
}

/** The part that a change brought. */
function partOf(before: Section, changed: Changed): Fresh | null {
  if (!changed.ok) return null;
  const { section } = changed;
  const [part] = freshParts(before, section);
  return part ? { section, part } : null;
}

function linesAt({ section, part }: Fresh): Lines {
  return "on" in part ? { x: [], z: [deviceAt(section, part.on)[1]] } : linesOf(section, part.id);
}

/** m within which a line lies on a guide */
const onIt = 1e-6;

/** An opening, a pump or a tee may have caught what snapped, and hold it elsewhere. */
function cameTrue(snaps: readonly Snapped[], lines: Lines): readonly Guide[] {
  return snaps.flatMap(({ guide }) =>
    guide && lines[guide.axis].some((line) => Math.abs(line - guide.value) < onIt) ? [guide] : [],
  );
}
