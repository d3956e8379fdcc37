/** A pump or an end that is said to stand in a body, moved into it. */
import { mouthOf } from "../document/defaults.ts";
import { bottomOf, pipeLine, wallsAt } from "../document/geometry.ts";
import type { PipeEnd, Point } from "../document/section.ts";
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
  const line = pipeLine(section, part);
  const moved = (end: PipeEnd, at: Point | undefined): PipeEnd => {
    if (!("part" in end) || end.part !== body.id || !at) return end;
    const { x, z } = placed(...at);
    // A side mouth lies on the wall, wherever its pipe comes from; another end without a place of its own hangs under
    // the next point of the route, which may be what lies outside.
    return mouthOf(end) === "side" ? { ...end, z } : { ...end, x, z };
  };
  const ends = { from: moved(part.from, line[0]), to: moved(part.to, line.at(-1)) };
  yield { label, section: relaid(section, part, { route: [...(part.route ?? [])], ...ends }) };
};
