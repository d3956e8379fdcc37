import type { Draft } from "immer";
import {
  isDevice,
  lineLength,
  nearestOnLine,
  type Part,
  type PartId,
  type PipeEnd,
  type Point,
  type Pump,
  pipeLine,
  placeAt,
  type Section,
} from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { inOrder } from "../inOrder.ts";
import { act } from "./act.ts";
import { type Copied, readCopied } from "./copiedText.ts";
import { freeLabel } from "./freeLabel.ts";
import { bodyAt, freeId, nextRank } from "./newPart.ts";
import { even, round } from "./rounded.ts";
import { placesShifted, shiftedEnd, shiftedPoint } from "./shifted.ts";

export interface Pasted {
  readonly changed: Changed;
  readonly ids: ReadonlySet<PartId>;
  /** what of it has no place here, in words */
  readonly leftOut: string | null;
}

export interface PasteOptions {
  readonly label?: string;
  /** where valves and breathers that come without their pipe shall sit: as near as they can, on this pipe or their own */
  readonly near?: { readonly place: Point; readonly pipe: PartId | null };
}

/** m from a copy to the next one */
const step = 0.2;

/** Sets copied parts down beside where they were, or a step further where a copy stands already. What sat on a part that
 * was not copied goes onto that part. Text that is no drawing is refused. */
export function pasteParts(
  section: Section,
  text: string,
  dx: number,
  dz: number,
  { label = "Paste", near }: PasteOptions = {},
): Pasted {
  const copied = readCopied(text);
  if (!copied) return refused("What was copied is no part of a drawing.");
  const wanted = inOrder(copied.section).filter((part) => !copied.carriers.has(part.id));
  const lost = wanted.filter((part) => !findsItsPlace(section, copied, part, near?.pipe ?? null));
  const kept = wanted.filter((part) => !lost.includes(part));
  const leftOut = lost.length === 0 ? null : whyLeftOut(lost);
  if (kept.length === 0) return refused(leftOut ?? "What was copied holds no parts.");

  const fresh = freshNames(section, kept);
  const by = even(dx + step * stepsToClear(section, kept, dx, dz));
  const carried = (part: Part): boolean => carriersOf(copied, part).length > 0;
  const copies = new Map<PartId, Part>();
  for (const part of kept) {
    const put = carried(part) ? onward(section, copied, copies, part, near) : moved(part, by, dz);
    const copy = fresh(put);
    copies.set(copy.id, copy);
  }
  for (const copy of copies.values()) if (copy.kind === "pump") copies.set(copy.id, standing(section, copies, copy));
  const changed = act(section, label, (draft) => {
    for (const copy of copies.values()) draft.parts.set(copy.id, copy as Draft<Part>);
  });
  return { changed, ids: new Set(copies.keys()), leftOut };
}

const refused = (why: string): Pasted => ({ changed: { ok: false, why }, ids: new Set(), leftOut: null });

// --- what it stands on ---------------------------------------------------------------------------------------

/** The parts that carry it and were not copied. Where a spillway falls to may be missing: it falls to the ground then. */
function carriersOf({ carriers }: Copied, part: Part): readonly PartId[] {
  const under = isDevice(part) ? [part.on.pipe] : part.kind === "spillway" ? [part.from] : [];
  return under.filter((id) => carriers.has(id));
}

function findsItsPlace(section: Section, copied: Copied, part: Part, pipe: PartId | null): boolean {
  if (isDevice(part) && pipe !== null) return true;
  return carriersOf(copied, part).every((id) => section.parts.get(id)?.kind === copied.section.parts.get(id)?.kind);
}

function whyLeftOut(lost: readonly Part[]): string {
  const [first] = lost;
  if (lost.length > 1 || !first) return `${lost.length} parts can not be pasted: what they stood on is not here.`;
  const under = isDevice(first) ? "the pipe that it sat on" : "the rim that it was cut into";
  return `${partName(first)} can not be pasted: ${under} is not in this drawing.`;
}

/** A part that its own pipe or body carries on: a valve or a breather a step further along, where none sits yet. */
function onward(
  section: Section,
  copied: Copied,
  copies: ReadonlyMap<PartId, Part>,
  part: Part,
  near: PasteOptions["near"],
): Part {
  if (!isDevice(part)) return part;
  const pipe = section.parts.get(near?.pipe ?? part.on.pipe);
  const was = copied.section.parts.get(part.on.pipe);
  if (pipe?.kind !== "pipe" || was?.kind !== "pipe") return part;
  const line = pipeLine(section, pipe);
  const taken = [...section.parts.values(), ...copies.values()].flatMap((other) =>
    isDevice(other) && other.on.pipe === pipe.id ? [other.on.at] : [],
  );
  const at = round(freeAlong(near ? nearestOnLine(line, near.place).at : part.on.at, lineLength(line), taken));
  const on = { pipe: pipe.id, at };
  if (part.kind !== "vent" || part.openEndZ === undefined) return { ...part, on };
  const rise = part.openEndZ - placeAt(pipeLine(copied.section, was), part.on.at)[1];
  return { ...part, on, openEndZ: round(placeAt(line, at)[1] + rise) };
}

/** The first place along a pipe, from one on in steps and then back from it, that lies clear of those taken. */
function freeAlong(from: number, length: number, taken: readonly number[]): number {
  const start = Math.min(from, length);
  const ahead = Array.from({ length: Math.floor((length - start) / step) + 1 }, (_, k) => start + step * k);
  const behind = Array.from({ length: Math.floor(start / step) }, (_, k) => start - step * (k + 1));
  // On a full pipe the settling of the edit finds a gap.
  return [...ahead, ...behind].find((at) => taken.every((other) => Math.abs(other - at) > step / 2)) ?? start;
}

/** A pump draws from the water it comes to stand in, as after a drag, unless a pipe leads to it. */
function standing(section: Section, copies: ReadonlyMap<PartId, Part>, pump: Pump): Pump {
  if (pump.in !== undefined) return pump;
  const fed = [...copies.values()].some((to) => to.kind === "pipe" && "part" in to.to && to.to.part === pump.id);
  const body = fed
    ? undefined
    : bodyAt({ ...section, parts: new Map([...section.parts, ...copies]) }, [pump.x, pump.z]);
  return body ? { ...pump, in: body.id } : pump;
}

// --- what it is called ---------------------------------------------------------------------------------------

/** Gives each copy an id, a label and a rank of its own. */
function freshNames(section: Section, parts: readonly Part[]): (part: Part) => Part {
  const used = new Set<PartId>(section.parts.keys());
  const names = new Map<PartId, PartId>();
  for (const { id } of parts) {
    const free = freeId(used, id);
    used.add(free);
    names.set(id, free);
  }
  const labels = new Set([...section.parts.values()].map(({ label }) => label ?? ""));
  let rank = nextRank(section);
  return (part) => {
    const copy = { ...renamed(part, names), rank: rank++ };
    if (!part.label?.trim()) return copy;
    const label = freeLabel(labels, part.label);
    labels.add(label);
    return { ...copy, label };
  };
}

function renamed(part: Part, names: ReadonlyMap<PartId, PartId>): Part {
  const name = (id: PartId): PartId => names.get(id) ?? id;
  const end = (e: PipeEnd): PipeEnd =>
    "part" in e ? { ...e, part: name(e.part) } : "pipe" in e ? { ...e, pipe: name(e.pipe) } : e;
  const id = name(part.id);
  switch (part.kind) {
    case "pipe":
      return { ...part, id, from: end(part.from), to: end(part.to) };
    case "valve":
      return { ...part, id, on: { ...part.on, pipe: name(part.on.pipe) } };
    case "checkValve":
      return { ...part, id, on: { ...part.on, pipe: name(part.on.pipe) } };
    case "vent":
      return { ...part, id, on: { ...part.on, pipe: name(part.on.pipe) } };
    case "spillway":
      return { ...part, id, from: name(part.from), to: part.to === "ground" ? "ground" : name(part.to) };
    case "vessel":
      return part.overflow === undefined || part.overflow === "ground"
        ? { ...part, id }
        : { ...part, id, overflow: name(part.overflow) };
    case "pump":
      return part.in === undefined ? { ...part, id } : { ...part, id, in: name(part.in) };
    default:
      return { ...part, id };
  }
}

// --- where it stands -----------------------------------------------------------------------------------------

/** Steps to the side after which no copy lies exactly upon a part of its kind: the copies pasted before. */
function stepsToClear(section: Section, parts: readonly Part[], dx: number, dz: number): number {
  const stands = new Set([...section.parts.values()].map(placeOf));
  const lies = (part: Part, steps: number): boolean => {
    const place = placeOf(moved(part, even(dx + step * steps), dz));
    return place !== null && stands.has(place);
  };
  let steps = 0;
  while (steps < section.parts.size && parts.some((part) => lies(part, steps))) steps++;
  return steps;
}

/** Kind and place in one word; null for what other parts give its place. */
function placeOf(part: Part): string | null {
  switch (part.kind) {
    case "pond":
      return `${part.kind} ${part.x} ${part.bedLevel}`;
    case "vessel":
      return `${part.kind} ${part.x} ${part.baseLevel}`;
    case "pump":
    case "note":
      return `${part.kind} ${part.x} ${part.z}`;
    case "pipe": {
      const places = [part.from, part.to].flatMap((end) => ("open" in end ? [end.x, end.z] : []));
      return places.length < 4 && !part.route ? null : `${part.kind} ${[...places, ...(part.route ?? [])].join(" ")}`;
    }
    default:
      return null;
  }
}

function moved(part: Part, dx: number, dz: number): Part {
  if (part.kind !== "pipe") return { ...part, ...placesShifted(part, dx, dz) };
  return {
    ...part,
    from: shiftedEnd(part.from, dx, dz),
    to: shiftedEnd(part.to, dx, dz),
    ...(part.route ? { route: part.route.map((point) => shiftedPoint(point, dx, dz)) } : {}),
  };
}
