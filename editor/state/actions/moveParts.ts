/** Moves parts together. What hangs on them goes along: pumps in a body, the ends of pipes at it, and the
 * legs next to those ends, so that a line at right angles stays at right angles. */
import type { Draft } from "immer";
import type { PartId, Pipe, PipeEnd, Point, Section } from "../../../hydraulics/index.ts";
import { pipeLine } from "../../../hydraulics/index.ts";
import { partNameById } from "../../sheet/partName.ts";
import type { Changed } from "../edit.ts";
import { act } from "./act.ts";
import { bodyAt } from "./newPart.ts";
import { even } from "./rounded.ts";
import { placesShifted, shiftedEnd, shiftedPoint } from "./shifted.ts";

export interface MoveOptions {
  readonly hold?: string;
  readonly label?: string;
}

export function moveParts(
  section: Section,
  ids: ReadonlySet<PartId>,
  dx: number,
  dz: number,
  options: MoveOptions = {},
): Changed {
  const moved = withWhatStandsInThem(section, ids);
  const what = ids.size === 1 ? partNameById(section, [...ids][0] as PartId) : `${ids.size} parts`;
  const label = options.label ?? `Move ${what}`;
  return act(
    section,
    label,
    (draft) => {
      for (const id of moved) {
        const part = draft.parts.get(id);
        if (part) movePart(section, draft, part, dx, dz, ids);
      }
      for (const part of section.parts.values()) {
        if (part.kind === "pipe") movePipe(section, draft, part, moved, ids.has(part.id), dx, dz);
      }
    },
    options.hold === undefined ? {} : { hold: options.hold },
  );
}

function withWhatStandsInThem(section: Section, ids: ReadonlySet<PartId>): ReadonlySet<PartId> {
  const moved = new Set(ids);
  for (const part of section.parts.values())
    if (part.kind === "pump" && part.in !== undefined && moved.has(part.in)) moved.add(part.id);
  return moved;
}

type AnyDraft = Draft<Section> extends { parts: Map<PartId, infer P> } ? P : never;

function movePart(
  section: Section,
  draft: Draft<Section>,
  part: AnyDraft,
  dx: number,
  dz: number,
  ids: ReadonlySet<PartId>,
): void {
  switch (part.kind) {
    case "pond":
    case "vessel":
      Object.assign(part, placesShifted(part, dx, dz));
      moveCrests(section, draft, part.id, dz);
      return;
    case "pump": {
      Object.assign(part, placesShifted(part, dx, dz));
      // A pump dragged by itself into or out of the water changes what it draws from.
      if (ids.has(part.id) && !(part.in !== undefined && ids.has(part.in))) {
        const body = bodyAt(section, [part.x, part.z]);
        const drawsByPipe = [...section.parts.values()].some(
          (other) => other.kind === "pipe" && "part" in other.to && other.to.part === part.id,
        );
        if (body && !drawsByPipe) part.in = body.id;
        else delete part.in;
      }
      return;
    }
    case "note":
      Object.assign(part, placesShifted(part, dx, dz));
      return;
    case "spillway":
      if (ids.has(part.id) && !ids.has(part.from)) Object.assign(part, placesShifted(part, dx, dz));
      return;
    // Pipes follow their ends below; devices ride on their pipes and are slid by `slideDevice`.
    case "pipe":
    case "valve":
    case "checkValve":
    case "vent":
      return;
  }
}

function moveCrests(section: Section, draft: Draft<Section>, body: PartId, dz: number): void {
  for (const part of section.parts.values()) {
    if (part.kind !== "spillway" || part.from !== body) continue;
    const spillway = draft.parts.get(part.id);
    if (spillway?.kind === "spillway") spillway.crestZ = even(part.crestZ + dz);
  }
}

function movePipe(
  section: Section,
  whole: Draft<Section>,
  pipe: Pipe,
  moved: ReadonlySet<PartId>,
  itself: boolean,
  dx: number,
  dz: number,
): void {
  const goes = { from: goesAlong(pipe.from, moved), to: goesAlong(pipe.to, moved) };
  // A draft of every pipe that stays would cost a drag more than all that moves.
  if (!itself && !goes.from && !goes.to) return;
  const draft = whole.parts.get(pipe.id);
  if (draft?.kind !== "pipe") return;
  // A pipe dragged by itself slides its openings along the walls it is fixed in.
  for (const which of ["from", "to"] as const)
    if (itself || goes[which]) draft[which] = shiftedEnd(pipe[which], dx, dz) as Draft<PipeEnd>;
  const route = pipe.route ?? [];
  if (route.length > 0) {
    if (itself || (goes.from && goes.to)) draft.route = route.map((point) => shiftedPoint(point, dx, dz));
    else if (goes.from || goes.to) draft.route = followed(pipeLine(section, pipe), goes.from, dx, dz);
  }
  if (itself || (goes.from && goes.to)) moveRisers(section, whole, pipe.id, dz);
}

const goesAlong = (end: PipeEnd, moved: ReadonlySet<PartId>): boolean => ("part" in end ? moved.has(end.part) : false);

/** The route when one end moves: only the point next to that end gives way, along the leg it is on. */
function followed(line: readonly Point[], first: boolean, dx: number, dz: number): [number, number][] {
  const route = line.slice(1, -1).map(([x, z]): [number, number] => [x, z]);
  const index = first ? 0 : route.length - 1;
  const end = (first ? line[0] : line.at(-1)) as Point;
  const point = route[index] as Point;
  const across = Math.abs(point[0] - end[0]);
  const up = Math.abs(point[1] - end[1]);
  // Near-level runs have a fall, so a leg counts as level up to one in five.
  if (across < up / 5) route[index] = [even(point[0] + dx), point[1]];
  else if (up < across / 5) route[index] = [point[0], even(point[1] + dz)];
  return route;
}

/** Risers on a pipe that moves as a whole move with it; otherwise they keep the level of their open end. */
function moveRisers(section: Section, draft: Draft<Section>, pipe: PartId, dz: number): void {
  for (const part of section.parts.values()) {
    if (part.kind !== "vent" || part.on.pipe !== pipe || part.openEndZ === undefined) continue;
    const vent = draft.parts.get(part.id);
    if (vent?.kind === "vent") vent.openEndZ = even(part.openEndZ + dz);
  }
}
