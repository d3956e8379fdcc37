/** Draws a moving thing to what it nearly meets: the levels and edges of other parts, then a round step.
 * What it met is told in words, and drawn as a faint guide line. */
import { bottomOf, drawnWidth, type PartId, type Point, pipeLine, type Section } from "../../hydraulics/index.ts";
import { partName } from "../sheet/partName.ts";
import { deviceAt } from "./grip.ts";

export interface Mark {
  readonly value: number;
  /** `Pond's rim` */
  readonly name: string;
}

export interface Guide {
  readonly axis: "x" | "z";
  readonly value: number;
  readonly name: string;
}

export interface Snapped {
  /** to be added to the wish */
  readonly by: number;
  readonly guide: Guide | null;
}

export interface SnapGrid {
  readonly step: number;
  readonly reach: number;
}

/** The lines of a part that are worth bringing to something. */
export interface Lines {
  readonly x: readonly number[];
  /** the level that is told comes first */
  readonly z: readonly number[];
}

export function linesOf(section: Section, id: PartId): Lines {
  const part = section.parts.get(id);
  switch (part?.kind) {
    case "pond":
      return { x: [part.x, part.x + part.width], z: [part.rimLevel, part.waterLevel, part.bedLevel] };
    case "vessel":
      return { x: [part.x, part.x + drawnWidth(part)], z: [part.baseLevel, part.rimLevel] };
    case "pump":
    case "note":
      return { x: [part.x], z: [part.z] };
    case "spillway":
      return { x: [], z: [part.crestZ] };
    default:
      return { x: [], z: [] };
  }
}

/** `lines` are the levels (or x) that the moving thing would have; the nearest mark to any of them wins,
 * else the first of them comes to a round step. */
export function snapAxis(axis: "x" | "z", lines: readonly number[], marks: readonly Mark[], grid: SnapGrid): Snapped {
  let best: { by: number; mark: Mark } | null = null;
  for (const line of lines) {
    for (const mark of marks) {
      const by = mark.value - line;
      if (Math.abs(by) <= grid.reach && (!best || Math.abs(by) < Math.abs(best.by))) best = { by, mark };
    }
  }
  if (best) return { by: best.by, guide: { axis, value: best.mark.value, name: best.mark.name } };
  const first = lines[0];
  if (first === undefined || grid.step <= 0) return { by: 0, guide: null };
  return { by: Math.round(first / grid.step) * grid.step - first, guide: null };
}

/** Every level on the sheet that a thing may be drawn to, those of `except` left out. */
export function levelMarks(section: Section, except: ReadonlySet<PartId>): readonly Mark[] {
  const marks: Mark[] = [{ value: section.site.groundLevel ?? 0, name: "the ground" }];
  for (const part of section.parts.values()) {
    if (except.has(part.id)) continue;
    const name = partName(part);
    switch (part.kind) {
      case "pond":
        marks.push(
          { value: part.rimLevel, name: `rim of ${name}` },
          { value: part.waterLevel, name: `water in ${name}` },
          { value: part.bedLevel, name: `bed of ${name}` },
        );
        break;
      case "vessel": {
        marks.push(
          { value: part.rimLevel, name: `rim of ${name}` },
          { value: bottomOf(part), name: `base of ${name}` },
        );
        break;
      }
      case "pump":
        marks.push({ value: part.z, name });
        break;
      case "pipe":
        if (tiedTo(part.id, section, except)) break;
        for (const [, z] of pipeLine(section, part)) marks.push({ value: z, name });
        break;
      case "vent": {
        if (except.has(part.on.pipe)) break;
        const tee = deviceAt(section, part.on)[1];
        marks.push(
          { value: tee, name: `tee of ${name}` },
          { value: part.openEndZ ?? tee, name: `open end of ${name}` },
        );
        break;
      }
      case "spillway":
        if (!except.has(part.from)) marks.push({ value: part.crestZ, name: `crest of ${name}` });
        break;
      default:
        break;
    }
  }
  return marks;
}

export function edgeMarks(section: Section, except: ReadonlySet<PartId>): readonly Mark[] {
  const marks: Mark[] = [];
  for (const part of section.parts.values()) {
    if (except.has(part.id)) continue;
    const name = partName(part);
    if (part.kind === "pond" || part.kind === "vessel") {
      const width = drawnWidth(part);
      marks.push(
        { value: part.x, name: `edge of ${name}` },
        { value: part.x + width, name: `edge of ${name}` },
        { value: part.x + width / 2, name: `middle of ${name}` },
      );
    } else if (part.kind === "pump") marks.push({ value: part.x, name });
    else if (part.kind === "pipe" && !tiedTo(part.id, section, except))
      for (const [x] of pipeLine(section, part)) marks.push({ value: x, name });
  }
  return marks;
}

/** Whether a pipe moves along with what is moved. */
function tiedTo(id: PartId, section: Section, moved: ReadonlySet<PartId>): boolean {
  const pipe = section.parts.get(id);
  if (pipe?.kind !== "pipe") return false;
  const along = (moving: PartId): boolean => {
    if (moved.has(moving)) return true;
    const part = section.parts.get(moving);
    return part?.kind === "pump" && part.in !== undefined && moved.has(part.in);
  };
  return [pipe.from, pipe.to].some((end) =>
    "part" in end ? along(end.part) : "pipe" in end ? moved.has(end.pipe) : false,
  );
}

/** A step that is a few pixels wide at this scale: round in millimetres, or in fractions of an inch. */
export function snapStep(scale: number, units: "metric" | "us"): number {
  const least = 3 / scale;
  const inch = 0.0254;
  const steps =
    units === "metric"
      ? [0.001, 0.005, 0.01, 0.05, 0.1, 0.5, 1]
      : [inch / 16, inch / 8, inch / 4, inch / 2, inch, 3 * inch, 12 * inch];
  return steps.find((step) => step >= least) ?? (steps.at(-1) as number);
}

/** Brings a point square to its neighbours on a line where it is nearly so. */
export function squareMarks(neighbours: readonly (Point | undefined)[]): Marks {
  const known = neighbours.flatMap((point) => (point ? [marksAt(point, "a right angle")] : []));
  return { x: known.flatMap(({ x }) => x), z: known.flatMap(({ z }) => z) };
}

interface Marks {
  readonly x: readonly Mark[];
  readonly z: readonly Mark[];
}

export const marksAt = ([x, z]: Point, name: string): Marks => ({ x: [{ value: x, name }], z: [{ value: z, name }] });
