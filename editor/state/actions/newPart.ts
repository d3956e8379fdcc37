/** What a part is like when it comes from the stencil: sizes a builder would recognise, all of them to be changed. */
import {
  type Body,
  bottomOf,
  drawnWidth,
  type Part,
  type PartId,
  type PartKind,
  type Point,
  partId,
  type Section,
  wallsAt,
} from "../../../hydraulics/index.ts";
import { bodiesOf } from "../inOrder.ts";
import { even } from "./rounded.ts";

const stem: Record<PartKind, string> = {
  pond: "pond",
  vessel: "vessel",
  pump: "pump",
  pipe: "pipe",
  valve: "valve",
  checkValve: "check-valve",
  vent: "breather",
  spillway: "spillway",
  note: "note",
};

/** A free id for a new part: `pond`, `pond-2`, … */
export function freeId(parts: { has(id: PartId): boolean }, wanted: string): PartId {
  const short = wanted.slice(0, 34);
  if (!parts.has(partId(short))) return partId(short);
  const base = short.replace(/-\d+$/, "");
  for (let n = 2; ; n++) {
    const id = partId(`${base}-${n}`);
    if (!parts.has(id)) return id;
  }
}

export const idFor = (section: Section, kind: PartKind): PartId => freeId(section.parts, stem[kind]);

export function nextRank(section: Section): number {
  let greatest = -1;
  for (const part of section.parts.values()) greatest = Math.max(greatest, part.rank);
  return greatest + 1;
}

export const groundOf = (section: Section): number => section.site.groundLevel ?? 0;

/** The body whose drawn outline holds a place; the smaller where two overlap. */
export function bodyAt(section: Section, [x, z]: Point, margin = 0): Body | undefined {
  const around = bodiesOf(section).filter((body) => {
    const [left, right] = wallsAt(body, z);
    return x >= left - margin && x <= right + margin && z >= bottomOf(body) - margin && z <= body.rimLevel + margin;
  });
  return around.sort((a, b) => drawnWidth(a) - drawnWidth(b))[0];
}

/** A body or pump or note as it comes from the stencil, set down at a place. */
export function newPart(section: Section, kind: "pond" | "vessel" | "pump" | "note", [x, z]: Point): Part {
  const common = { id: idFor(section, kind), rank: nextRank(section) };
  const ground = groundOf(section);
  switch (kind) {
    case "pond": {
      const rim = z > ground + 0.3 ? even(z) : even(ground + 0.05);
      return {
        ...common,
        kind,
        label: named(section, "pond", "Pond"),
        x: even(x - 1.3),
        width: 2.6,
        length: 1.8,
        bedLevel: even(rim - 0.7),
        rimLevel: rim,
        waterLevel: even(rim - 0.1),
      };
    }
    case "vessel": {
      const base = z > ground + 0.6 || z < ground - 0.6 ? even(z - 0.4) : even(ground);
      return {
        ...common,
        kind,
        label: named(section, "vessel", "Filter"),
        x: even(x - 0.45),
        plan: { shape: "round", diameter: 0.9 },
        baseLevel: base,
        rimLevel: even(base + 0.8),
        media: [
          { depth: 0.2, grain: 0.045, porosity: 0.45 },
          { depth: 0.3, grain: 0.012, porosity: 0.4 },
        ],
        overflow: "ground",
      };
    }
    case "pump": {
      const body = bodyAt(section, [x, z]);
      const common2 = {
        ...common,
        kind,
        label: named(section, "pump", "Pump"),
        maxFlow: 0.0008,
        maxHead: 2.4,
        watts: 38,
      } as const;
      if (!body) return { ...common2, x: even(x), z: even(z) };
      return {
        ...common2,
        x: even(x),
        z: even(Math.max(z, Math.min(bottomOf(body) + 0.1, body.rimLevel))),
        in: body.id,
      };
    }
    case "note":
      return { ...common, kind, x: even(x), z: even(z), text: "Note" };
  }
}

/** `Pond`, `Pond 2`: by how many of a kind there are. */
export function named(section: Section, kind: PartKind, word: string): string {
  const count = [...section.parts.values()].filter((part) => part.kind === kind).length;
  return count === 0 ? word : `${word} ${count + 1}`;
}
