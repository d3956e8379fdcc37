/** A drag as a function: from the section at pointer-down and where the pointer is now, to the change.
 * Nothing is remembered between two moves but the last answer, which comes again where the same is asked: a hand that
 * moves within one step of the grid has nothing solved or painted anew. So Escape has nothing to clear up. */
import {
  bottomOf,
  drawnWidth,
  isDevice,
  nearestOnLine,
  type PartId,
  type Point,
  pipeLine,
  placeAt,
  type Section,
} from "../../hydraulics/index.ts";
import { moveParts } from "../state/actions/moveParts.ts";
import { movePipeBend } from "../state/actions/movePipeBend.ts";
import { movePipeEnd } from "../state/actions/movePipeEnd.ts";
import { movePipeSegment, segmentDirection } from "../state/actions/movePipeSegment.ts";
import { pullVentEnd } from "../state/actions/pullVentEnd.ts";
import { resizeBody } from "../state/actions/resizeBody.ts";
import { even } from "../state/actions/rounded.ts";
import { setMediaBoundary } from "../state/actions/setMediaBoundary.ts";
import { slideDevice } from "../state/actions/slideDevice.ts";
import type { Changed } from "../state/edit.ts";
import { type Grip, lineOf, pipeAt } from "./grip.ts";
import {
  edgeMarks,
  type Guide,
  levelMarks,
  linesOf,
  type Mark,
  type SnapGrid,
  type Snapped,
  snapAxis,
  squareMarks,
} from "./snap.ts";

export interface DragStart {
  readonly section: Section;
  readonly grip: Grip;
  /** all parts that move together */
  readonly selection: ReadonlySet<PartId>;
  readonly at: Point;
}

export interface DragWish {
  readonly at: Point;
  readonly grid: SnapGrid;
  /** m: what catches a pipe's end */
  readonly reach: number;
  /** lets go of snapping and of right angles */
  readonly loose: boolean;
}

export interface Dragged {
  readonly changed: Changed;
  readonly guides: readonly Guide[];
  /** the level or size that the hand is setting */
  readonly figure: { readonly kind: "level" | "length"; readonly value: number; readonly at: Point } | null;
}

export function drag(start: DragStart, wish: DragWish): Dragged {
  const { grip } = start;
  switch (grip.of) {
    case "part":
      return dragParts(start, wish);
    case "end":
      return dragEnd(start, wish, grip.part, grip.which);
    case "bend":
      return dragBend(start, wish, grip.part, grip.index);
    case "stretch":
      return dragStretch(start, wish, grip.part, grip.index);
    case "edge":
      return dragEdge(start, wish, grip);
    case "media":
      return dragMedia(start, wish, grip.part, grip.layer);
    case "device":
      return dragDevice(start, wish, grip.part);
    case "riser":
      return dragRiser(start, wish, grip.part);
  }
}

let last: { readonly asked: readonly unknown[]; readonly changed: Changed } | null = null;

function asBefore(asked: readonly unknown[], answer: () => Changed): Changed {
  const isSame = last?.asked.length === asked.length && asked.every((one, i) => one === last?.asked[i]);
  if (!last || !isSame) last = { asked, changed: answer() };
  return last.changed;
}

const none: Snapped = { by: 0, guide: null };

/** A hand that lets go of snapping still sets down no finer than a millimetre. */
export function snappedTo(
  axis: "x" | "z",
  lines: readonly number[],
  marks: readonly Mark[],
  { grid, loose }: Pick<DragWish, "grid" | "loose">,
): Snapped {
  return loose ? snapAxis(axis, lines, [], { ...grid, step: 0.001 }) : snapAxis(axis, lines, marks, grid);
}

const found = (...snaps: readonly Snapped[]): Guide[] => snaps.flatMap((snap) => (snap.guide ? [snap.guide] : []));

function dragParts(start: DragStart, wish: DragWish): Dragged {
  const { section, selection } = start;
  const ids = selection.has(start.grip.part) ? selection : new Set([start.grip.part]);
  const dx = wish.at[0] - start.at[0];
  const dz = wish.at[1] - start.at[1];
  const lead = section.parts.get(start.grip.part);
  const lines = linesOf(section, start.grip.part);
  const sx = movedTo("x", lines.x, dx, edgeMarks(section, ids), wish);
  const sz = movedTo("z", lines.z, dz, levelMarks(section, ids), wish);
  const by = [even(dx + sx.by), even(dz + sz.by)] as const;
  const changed = asBefore([section, "parts", [...ids].join(), ...by], () => moveParts(section, ids, ...by));
  const level = lines.z[0];
  return {
    changed,
    guides: found(sx, sz),
    figure:
      level === undefined || !lead
        ? null
        : {
            kind: "level",
            value: level + dz + sz.by,
            at: [(lines.x[0] ?? wish.at[0]) + dx + sx.by, level + dz + sz.by],
          },
  };
}

/** What has no line of its own that could come to something, a pipe, goes by round steps. */
function movedTo(
  axis: "x" | "z",
  lines: readonly number[],
  by: number,
  marks: readonly Mark[],
  wish: DragWish,
): Snapped {
  return lines.length === 0
    ? snappedTo(axis, [by], [], wish)
    : snappedTo(
        axis,
        lines.map((line) => line + by),
        marks,
        wish,
      );
}

function dragEnd({ section }: DragStart, wish: DragWish, id: PartId, which: "from" | "to"): Dragged {
  const line = lineOf(section, id) ?? [];
  const next = which === "from" ? line[1] : line.at(-2);
  const square = squareMarks([line.length > 2 ? next : undefined]);
  const sz = snappedTo("z", [wish.at[1]], [...levelMarks(section, new Set([id])), ...square.z], wish);
  const sx = snappedTo("x", [wish.at[0]], square.x, wish);
  const at: Point = [wish.at[0] + sx.by, wish.at[1] + sz.by];
  // What the pointer is over decides what catches the end; the snapped place decides where it sits.
  const changed = movePipeEnd(section, id, which, { at, reach: wish.reach });
  const now = changed.ok ? changed.section : section;
  const moved = now.parts.get(id);
  const place = moved?.kind === "pipe" ? (pipeLine(now, moved).at(which === "from" ? 0 : -1) as Point) : at;
  return { changed, guides: found(sx, sz), figure: { kind: "level", value: place[1], at: place } };
}

function dragBend({ section }: DragStart, wish: DragWish, id: PartId, index: number): Dragged {
  const line = lineOf(section, id) ?? [];
  const square = squareMarks([line[index], line[index + 2]]);
  const others = new Set([id]);
  const sx = snappedTo("x", [wish.at[0]], [...square.x, ...edgeMarks(section, others)], wish);
  const sz = snappedTo("z", [wish.at[1]], [...square.z, ...levelMarks(section, others)], wish);
  const at: Point = [even(wish.at[0] + sx.by), even(wish.at[1] + sz.by)];
  return {
    changed: asBefore([section, "bend", id, index, ...at], () => movePipeBend(section, id, index, at)),
    guides: found(sx, sz),
    figure: { kind: "level", value: at[1], at },
  };
}

function dragStretch(start: DragStart, wish: DragWish, id: PartId, index: number): Dragged {
  const { section } = start;
  const line = lineOf(section, id) ?? [];
  const a = line[index];
  const b = line[index + 1];
  if (!a || !b) return { changed: { ok: true, section, edit: null }, guides: [], figure: null };
  const direction = wish.loose ? "any" : segmentDirection(a, b);
  const dx = direction === "upDown" ? 0 : wish.at[0] - start.at[0];
  const dz = direction === "sideways" ? 0 : wish.at[1] - start.at[1];
  const others = new Set([id]);
  const sx = dx === 0 ? none : snappedTo("x", [a[0] + dx], edgeMarks(section, others), wish);
  const sz = dz === 0 ? none : snappedTo("z", [a[1] + dz], levelMarks(section, others), wish);
  const by = [even(dx + sx.by), even(dz + sz.by)] as const;
  const changed = asBefore([section, "stretch", id, index, ...by], () => movePipeSegment(section, id, index, ...by));
  const level = Math.max(a[1], b[1]) + dz + sz.by;
  return {
    changed,
    guides: found(sx, sz),
    figure: direction === "sideways" ? null : { kind: "level", value: level, at: [(a[0] + b[0]) / 2 + dx, level] },
  };
}

function dragEdge({ section }: DragStart, wish: DragWish, grip: Extract<Grip, { of: "edge" }>): Dragged {
  const body = section.parts.get(grip.part);
  if (body?.kind !== "pond" && body?.kind !== "vessel")
    return { changed: { ok: true, section, edit: null }, guides: [], figure: null };
  const others = new Set([grip.part]);
  if (grip.edge === "left" || grip.edge === "right") {
    const snap = snappedTo("x", [wish.at[0]], edgeMarks(section, others), wish);
    const edge = even(wish.at[0] + snap.by);
    const changed = resized(section, grip, edge);
    const now = changed.ok ? changed.section.parts.get(grip.part) : body;
    const width = now?.kind === "pond" || now?.kind === "vessel" ? drawnWidth(now) : 0;
    return {
      changed,
      guides: found(snap),
      figure: { kind: "length", value: width, at: [edge, (body.rimLevel + bottomOf(body)) / 2] },
    };
  }
  const snap = snappedTo("z", [wish.at[1]], levelMarks(section, others), wish);
  const level = even(wish.at[1] + snap.by);
  return {
    changed: resized(section, grip, level),
    guides: found(snap),
    figure: { kind: "level", value: level, at: [body.x + drawnWidth(body) / 2, level] },
  };
}

const resized = (section: Section, { part, edge }: Extract<Grip, { of: "edge" }>, to: number): Changed =>
  asBefore([section, "edge", part, edge, to], () => resizeBody(section, part, edge, to));

function dragMedia({ section }: DragStart, wish: DragWish, id: PartId, layer: number): Dragged {
  const snap = snappedTo("z", [wish.at[1]], levelMarks(section, new Set([id])), wish);
  const level = even(wish.at[1] + snap.by);
  return {
    changed: asBefore([section, "media", id, layer, level], () => setMediaBoundary(section, id, layer, level)),
    guides: found(snap),
    figure: { kind: "level", value: level, at: [wish.at[0], level] },
  };
}

function dragDevice(start: DragStart, wish: DragWish, id: PartId): Dragged {
  const { section } = start;
  const device = section.parts.get(id);
  if (!isDevice(device)) return { changed: { ok: true, section, edit: null }, guides: [], figure: null };
  const marks = levelMarks(section, new Set([id, device.on.pipe]));
  const snap = snappedTo("z", [wish.at[1]], marks, { ...wish, grid: { ...wish.grid, step: 0 } });
  const on = pipeUnder(section, device.on.pipe, wish);
  const line = lineOf(section, on);
  if (!line) return { changed: { ok: true, section, edit: null }, guides: [], figure: null };
  // The snapped level counts only while the device stays on the line there: on a level run it can not.
  const { at } = nearestOnLine(line, [wish.at[0], wish.at[1] + snap.by]);
  const changed = slideDevice(section, id, on, at);
  const place = placeAt(line, at);
  const met = snap.guide && Math.abs(place[1] - snap.guide.value) < 0.002 ? [snap.guide] : [];
  return { changed, guides: met, figure: { kind: "level", value: place[1], at: place } };
}

/** The pipe that the hand means: its own while that is at hand, also where others cross it, else the nearest. What a
 * level draws it to does not count: that may lie on another pipe. */
function pipeUnder(section: Section, own: PartId, { at, reach }: DragWish): PartId {
  const line = lineOf(section, own);
  if (line && nearestOnLine(line, at).distance <= reach) return own;
  return pipeAt(section, at, Number.POSITIVE_INFINITY)?.pipe ?? own;
}

function dragRiser({ section }: DragStart, wish: DragWish, id: PartId): Dragged {
  const snap = snappedTo("z", [wish.at[1]], levelMarks(section, new Set([id])), wish);
  const changed = pullVentEnd(section, id, wish.at[1] + snap.by);
  const vent = changed.ok ? changed.section.parts.get(id) : undefined;
  const level = vent?.kind === "vent" ? (vent.openEndZ ?? wish.at[1]) : wish.at[1];
  return { changed, guides: found(snap), figure: { kind: "level", value: level, at: [wish.at[0], level] } };
}
