/** After a change: what hangs on what was changed is put right, in the same edit.
 *
 * An end at a body that is gone stays where it was, open; a tee or a valve beyond the end of its pipe comes
 * back onto it; a riser that would end below its pipe is as long as nothing; and so on. A mend never asks
 * and never fails: a drawing has to stay readable (the reader's rules stand in the design notes' format). */
import type { Draft } from "immer";
import {
  bottomOf,
  drawnWidth,
  isDevice,
  lineLength,
  type OnPipe,
  type Part,
  type PartId,
  type Pipe,
  type PipeEnd,
  type Point,
  type Pump,
  pipeLine,
  placeAt,
  type Section,
  wallsAt,
} from "../../../hydraulics/index.ts";
import { type Made, makeEdit } from "../edit.ts";
import { bodyOf, inOrder } from "../inOrder.ts";
import { ride } from "./ride.ts";
import { even, round } from "./rounded.ts";
import { touched } from "./touched.ts";

/** Devices nearer than this share a place. */
const nearest = 0.005;

/** `before` tells where things stood that have lost their hold; `now` is what is mended. */
export function settle(before: Section, now: Section, label: string): Made {
  const loose = touched(before, now);
  return makeEdit(now, label, (draft) => {
    const taken = new Map<PartId, number[]>();
    for (const part of inOrder(now)) {
      if (!loose.has(part.id)) continue;
      const target = draft.parts.get(part.id);
      if (target) settlePart(before, now, draft, part, target, taken);
    }
  });
}

function settlePart(
  before: Section,
  now: Section,
  draft: Draft<Section>,
  part: Part,
  target: Draft<Part>,
  taken: Map<PartId, number[]>,
): void {
  if (part.kind === "vessel" && target.kind === "vessel") {
    if (part.overflow && part.overflow !== "ground" && (!bodyOf(now, part.overflow) || part.overflow === part.id))
      delete target.overflow;
    return;
  }
  if (part.kind === "pump" && target.kind === "pump") return settlePump(now, part, target);
  if (part.kind === "spillway" && target.kind === "spillway") {
    const from = bodyOf(now, part.from);
    if (!from) {
      draft.parts.delete(part.id);
      return;
    }
    if (part.to !== "ground" && (!bodyOf(now, part.to) || part.to === part.from)) target.to = "ground";
    target.crestZ = clamp(part.crestZ, bottomOf(from), from.rimLevel);
    return;
  }
  if (part.kind === "pipe" && target.kind === "pipe") {
    for (const which of ["from", "to"] as const) {
      const mended = settleEnd(before, now, part, which);
      if (mended) target[which] = mended as Draft<PipeEnd>;
    }
    return;
  }
  if (isDevice(part) && part.kind === target.kind) {
    const pipe = now.parts.get(part.on.pipe);
    if (pipe?.kind !== "pipe") {
      draft.parts.delete(part.id);
      return;
    }
    if (endsLost(now, pipe)) return;
    const line = pipeLine(now, pipe);
    const wanted = clamp(ridden(before, part.id, part.on, line), 0, lineLength(line));
    const at = freePlace(taken, pipe.id, wanted, lineLength(line), part.kind);
    if (at !== part.on.at) target.on.at = at;
    const level = placeAt(line, at)[1];
    if (part.kind === "vent" && target.kind === "vent" && part.openEndZ !== undefined) {
      // A riser goes up and down with its tee, unless the change was about its end or about its place.
      const was = before.parts.get(part.id);
      const stood =
        was?.kind === "vent" && was.openEndZ === part.openEndZ && samePlace(was.on, part.on)
          ? placeOf(before, was.on)
          : null;
      target.openEndZ = Math.max(stood === null ? part.openEndZ : round(part.openEndZ + level - stood), level);
    }
  }
}

function settlePump(now: Section, pump: Pump, target: Draft<Pump>): void {
  if (pump.in === undefined) return;
  const body = bodyOf(now, pump.in);
  if (!body) {
    delete target.in;
    return;
  }
  target.z = clamp(pump.z, bottomOf(body), body.rimLevel);
  const [left, right] = wallsAt(body, target.z);
  target.x = even(clamp(pump.x, left, right));
}

/** Whether a pipe, or one that it hangs on, has lost what an end was in: it has no line until that is mended. */
function endsLost(now: Section, pipe: Pipe): boolean {
  return [pipe.from, pipe.to].some((end) => {
    if ("part" in end) return !now.parts.has(end.part);
    if (!("pipe" in end)) return false;
    const on = now.parts.get(end.pipe);
    return on?.kind !== "pipe" || endsLost(now, on);
  });
}

const samePlace = (a: OnPipe, b: OnPipe): boolean => a.pipe === b.pipe && a.at === b.at;

function lineBefore(before: Section, id: PartId): readonly Point[] | null {
  const pipe = before.parts.get(id);
  return pipe?.kind === "pipe" ? pipeLine(before, pipe) : null;
}

function placeOf(before: Section, on: OnPipe): number | null {
  const line = lineBefore(before, on.pipe);
  return line ? placeAt(line, on.at)[1] : null;
}

/** Where a device that was not itself moved comes to be along its pipe. */
function ridden(before: Section, id: PartId, on: OnPipe, line: readonly Point[]): number {
  const was = before.parts.get(id);
  return isDevice(was) && samePlace(was.on, on) ? ride(lineBefore(before, on.pipe) ?? line, line, on.at) : on.at;
}

function settleEnd(before: Section, now: Section, pipe: Pipe, which: "from" | "to"): PipeEnd | null {
  const end = pipe[which];
  if ("open" in end) return null;
  if ("pipe" in end) {
    const on = now.parts.get(end.pipe);
    if (on?.kind !== "pipe") return openWhereItWas(before, pipe, which);
    if (endsLost(now, on)) return null;
    const line = pipeLine(now, on);
    const was = before.parts.get(pipe.id);
    const held = was?.kind === "pipe" ? was[which] : undefined;
    const rides = held && "pipe" in held && samePlace(held, end);
    const lineWas = (rides ? lineBefore(before, end.pipe) : null) ?? line;
    // What carries a pipe on at its end does so wherever that end comes to.
    const at =
      end.at > lineLength(lineWas) - atTheEnd
        ? lineLength(line)
        : clamp(rides ? ride(lineWas, line, end.at) : end.at, 0, lineLength(line));
    return at === end.at ? null : { pipe: end.pipe, at };
  }
  const part = now.parts.get(end.part);
  if (part?.kind === "pump") {
    // A pump in the water takes no pipe at its inlet: the end comes off.
    return which === "to" && part.in !== undefined ? { open: true, x: part.x, z: part.z } : null;
  }
  const body = bodyOf(now, end.part);
  if (!body) return openWhereItWas(before, pipe, which);
  const z = end.z === undefined ? undefined : clamp(end.z, bottomOf(body), body.rimLevel + overTheRim(end.mouth));
  const x = end.x === undefined ? undefined : clamp(end.x, body.x, body.x + drawnWidth(body));
  if (z === end.z && x === end.x) return null;
  return { ...end, ...(z === undefined ? {} : { z }), ...(x === undefined ? {} : { x }) };
}

/** m */
const atTheEnd = 1e-6;

/** A mouth that hangs over a body may end in the air above it; one in a wall ends at the rim. */
const overTheRim = (mouth: string | undefined): number => (mouth === "down" || mouth === "up" ? 10 : 0);

function openWhereItWas(before: Section, pipe: Pipe, which: "from" | "to"): PipeEnd {
  const was = before.parts.get(pipe.id);
  const [x, z] =
    was?.kind === "pipe"
      ? (pipeLine(before, was).at(which === "from" ? 0 : -1) ?? [0, 0])
      : (pipe.route?.at(which === "from" ? 0 : -1) ?? [0, 0]);
  return { open: true, x, z };
}

/** The nearest place along a pipe that no device of this kind has taken yet. */
function freePlace(taken: Map<PartId, number[]>, pipe: PartId, wanted: number, length: number, kind: string): number {
  const key = `${pipe} ${kind}` as PartId;
  const others = taken.get(key) ?? [];
  let at = wanted;
  for (let step = 1; others.some((other) => Math.abs(other - at) < nearest) && step <= 400; step++) {
    const off = Math.ceil(step / 2) * 0.02 * (step % 2 === 0 ? -1 : 1);
    at = clamp(wanted + off, 0, length);
  }
  taken.set(key, [...others, at]);
  return at;
}

const clamp = (value: number, least: number, greatest: number): number =>
  Math.min(Math.max(value, least), Math.max(least, greatest));
