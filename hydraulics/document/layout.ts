/** What has to agree about places: pipes have a length, tees and devices stand on their pipes, a vent opens at
 * or above its tee, and no pipe's place hangs on itself.
 *
 * A tee takes its place from the pipe it stands on, that pipe perhaps from another tee. Pipes are therefore
 * laid out in the order in which they hang on each other; those left over hang on themselves. The order also
 * fills the section's laid-out lines from the bottom, so that a chain of twenty thousand tees asks for no
 * deep recursion in `geometry.ts`. */
import { lineLength, pipeLine, placeAt } from "./geometry.ts";
import { isDevice } from "./isKind.ts";
import { kindWords } from "./kindWords.ts";
import { ranges, samePlace } from "./limits.ts";
import type { CheckValve, PartId, Pipe, PipeEnd, Section, Valve, Vent } from "./section.ts";
import { inside, type Place } from "./shape/place.ts";
import type { Problems } from "./shape/problems.ts";

export interface Laid {
  /** the readable parts, each with its own fields in order */
  readonly section: Section;
  readonly places: ReadonlyMap<PartId, Place>;
  readonly problems: Problems;
}

const sides = ["from", "to"] as const;

export function agreeOnPlaces(laid: Laid): void {
  const pipes = [...laid.section.parts.values()].filter((part) => part.kind === "pipe");
  const lengths = new Map<PartId, number>();
  for (const pipe of inHangingOrder(pipes, laid)) {
    if (!sides.every((side) => hasPlace(pipe[side], laid.section, lengths))) continue;
    const length = lineLength(pipeLine(laid.section, pipe));
    lengths.set(pipe.id, length);
    agreeOnLength(pipe, length, laid);
  }
  for (const pipe of pipes) {
    for (const side of sides) {
      const end = pipe[side];
      if ("pipe" in end) agreeOnAt(end, { id: pipe.id, field: side }, lengths, laid);
    }
  }
  agreeOnDevices(lengths, laid);
}

/** Pipes, each after those it tees into. Says so of those that tee into each other in a circle. */
function inHangingOrder(pipes: readonly Pipe[], laid: Laid): readonly Pipe[] {
  const waitsFor = new Map<PartId, number>();
  const hangers = new Map<PartId, Pipe[]>();
  for (const pipe of pipes) {
    const teesInto = bearers(pipe, laid.section);
    waitsFor.set(pipe.id, teesInto.length);
    for (const bearer of teesInto) {
      const there = hangers.get(bearer.id);
      if (there) there.push(pipe);
      else hangers.set(bearer.id, [pipe]);
    }
  }
  const order = pipes.filter((pipe) => waitsFor.get(pipe.id) === 0);
  for (let i = 0; i < order.length; i++) {
    for (const hanger of hangers.get((order[i] as Pipe).id) ?? []) {
      const left = (waitsFor.get(hanger.id) as number) - 1;
      waitsFor.set(hanger.id, left);
      if (left === 0) order.push(hanger);
    }
  }
  if (order.length < pipes.length)
    refuseCircles(new Set(pipes.filter((pipe) => (waitsFor.get(pipe.id) as number) > 0)), laid);
  return order;
}

/** `left` holds the circles and what hangs on them; only the circles are at fault. */
function refuseCircles(left: Set<Pipe>, { section, places, problems }: Laid): void {
  const carries = new Map<Pipe, number>();
  const within = (pipe: Pipe) => bearers(pipe, section).filter((bearer) => left.has(bearer));
  for (const pipe of left) for (const bearer of within(pipe)) carries.set(bearer, (carries.get(bearer) ?? 0) + 1);
  const idle = [...left].filter((pipe) => !carries.get(pipe));
  for (let i = 0; i < idle.length; i++) {
    const pipe = idle[i] as Pipe;
    left.delete(pipe);
    for (const bearer of within(pipe)) {
      const rest = (carries.get(bearer) as number) - 1;
      carries.set(bearer, rest);
      if (rest === 0) idle.push(bearer);
    }
  }
  for (const pipe of left) {
    const side = sides.find((each) => isTeeInto(pipe[each], left, section));
    if (!side) continue;
    problems.addWords(
      inside(inside(places.get(pipe.id) as Place, side), "pipe"),
      "a tee into a pipe that has its place without this one",
      `"${(pipe[side] as { pipe: PartId }).pipe}", which hangs on "${pipe.id}" in turn`,
    );
  }
}

function isTeeInto(end: PipeEnd, pipes: ReadonlySet<Pipe>, section: Section): boolean {
  const bearer = "pipe" in end ? section.parts.get(end.pipe) : undefined;
  return bearer?.kind === "pipe" && pipes.has(bearer);
}

/** The pipes that a pipe's ends tee into, one an end. Not itself: `kinds/pipe.ts` has said so already. */
function bearers(pipe: Pipe, section: Section): readonly Pipe[] {
  const found: Pipe[] = [];
  for (const side of sides) {
    const end = pipe[side];
    const bearer = "pipe" in end ? section.parts.get(end.pipe) : undefined;
    if (bearer?.kind === "pipe" && bearer !== pipe) found.push(bearer);
  }
  return found;
}

/** Whether an end is at a part that is readable and, for a tee, laid out. */
function hasPlace(end: PipeEnd, { parts }: Section, lengths: ReadonlyMap<PartId, number>): boolean {
  if ("open" in end) return true;
  if ("pipe" in end) return lengths.has(end.pipe);
  const kind = parts.get(end.part)?.kind;
  return kind === "pump" || kind === "pond" || kind === "vessel";
}

function agreeOnLength(pipe: Pipe, length: number, { places, problems }: Laid): void {
  const at = places.get(pipe.id) as Place;
  const route = inside(at, "route");
  if (length <= samePlace)
    problems.addWords(route, "a route with a length", "both ends of the pipe and its route at one place");
  if (length + (pipe.extraLength ?? 0) > ranges.length.max) {
    problems.addWords(
      route,
      ({ one }) => `a pipe of at most ${one(ranges.length.max, "length")}`,
      ({ one }) => one(Number((length + (pipe.extraLength ?? 0)).toPrecision(6)), "length"),
    );
  }
}

/** Says so where a place lies off its pipe. Nothing can be said where the pipe itself has no place. */
function agreeOnAt(
  { pipe, at }: { readonly pipe: PartId; readonly at: number },
  owner: { readonly id: PartId; readonly field: "from" | "to" | "on" },
  lengths: ReadonlyMap<PartId, number>,
  { places, problems }: Laid,
): void {
  const length = lengths.get(pipe);
  if (length === undefined || at <= length + samePlace) return;
  const field = inside(inside(places.get(owner.id) as Place, owner.field), "at");
  problems.addNumber(
    field,
    ({ one }) => `a place on "${pipe}", which is ${one(Number(length.toPrecision(6)), "length")} long`,
    at,
    "length",
  );
}

type Device = Valve | CheckValve | Vent;

function agreeOnDevices(lengths: ReadonlyMap<PartId, number>, laid: Laid): void {
  const beside = new Map<string, Device[]>();
  for (const part of laid.section.parts.values()) {
    if (!isDevice(part)) continue;
    agreeOnAt(part.on, { id: part.id, field: "on" }, lengths, laid);
    if (part.kind === "vent") agreeOnOpenEnd(part, lengths, laid);
    const key = `${part.kind} ${part.on.pipe}`;
    const there = beside.get(key);
    if (there) there.push(part);
    else beside.set(key, [part]);
  }
  for (const devices of beside.values()) agreeOnOneAPlace(devices, laid);
}

function agreeOnOpenEnd(vent: Vent, lengths: ReadonlyMap<PartId, number>, { section, places, problems }: Laid): void {
  const pipe = section.parts.get(vent.on.pipe);
  if (vent.openEndZ === undefined || pipe?.kind !== "pipe" || !lengths.has(pipe.id)) return;
  const teeLevel = placeAt(pipeLine(section, pipe), vent.on.at)[1];
  if (vent.openEndZ >= teeLevel - samePlace) return;
  problems.addNumber(
    inside(places.get(vent.id) as Place, "openEndZ"),
    ({ one }) => `a level from ${one(Number(teeLevel.toFixed(4)), "level")} up, where the vent stands on "${pipe.id}"`,
    vent.openEndZ,
    "level",
  );
}

function agreeOnOneAPlace(devices: readonly Device[], { places, problems }: Laid): void {
  if (devices.length < 2) return;
  const along = [...devices].sort((a, b) => a.on.at - b.on.at || a.rank - b.rank);
  for (let i = 1; i < along.length; i++) {
    const [before, device] = [along[i - 1] as Device, along[i] as Device];
    if (device.on.at - before.on.at > samePlace) continue;
    const field = inside(inside(places.get(device.id) as Place, "on"), "at");
    problems.addNumber(
      field,
      `one ${kindWords[device.kind]} at a place ("${before.id}" is here already)`,
      device.on.at,
      "length",
    );
  }
}
