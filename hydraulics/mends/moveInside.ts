/** A pump or an end that is said to stand in a body, moved into it. */
import { bottomOf, wallsAt } from "../document/geometry.ts";
import type { PipeEnd } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { withPart } from "./ampleVent.ts";
import { relaid } from "./relaid.ts";
import type { Remedy } from "./remedy.ts";

/** m inside the wall and over the bottom */
const clear = 0.1;

export const moveInside: Remedy = function* ({ section, finding }) {
  const [id, bodyId] = finding.parts;
  const part = id === undefined ? undefined : section.parts.get(id);
  const body = bodyId === undefined ? undefined : section.parts.get(bodyId);
  if (!part || (body?.kind !== "pond" && body?.kind !== "vessel")) return;
  const placed = (x: number, z: number): { x: number; z: number } => {
    const level = Math.max(z, bottomOf(body) + clear);
    const [left, right] = wallsAt(body, Math.min(level, body.rimLevel));
    const off = Math.min(clear, (right - left) / 2);
    return { x: Number(Math.min(Math.max(x, left + off), right - off).toFixed(3)), z: Number(level.toFixed(3)) };
  };
  const label = `Move ${called(section, part.id)} into ${called(section, body.id)}`;
  if (part.kind === "pump") yield { label, section: withPart(section, { ...part, ...placed(part.x, part.z) }) };
  if (part.kind !== "pipe") return;
  const moved = (end: PipeEnd): PipeEnd => {
    if (!("part" in end) || end.part !== body.id) return end;
    const { x, z } = placed(end.x ?? body.x, end.z ?? bottomOf(body));
    return end.x === undefined ? { ...end, z } : { ...end, x, z };
  };
  const ends = { from: moved(part.from), to: moved(part.to) };
  yield { label, section: relaid(section, part, { route: [...(part.route ?? [])], ...ends }) };
};
