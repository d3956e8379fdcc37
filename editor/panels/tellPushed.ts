import { listed, type Part, type PartId, type PipeEnd, type Section } from "../../hydraulics/index.ts";
import { partName } from "../sheet/partName.ts";
import type { Desk } from "../state/desk.ts";
import { inOrder } from "../state/inOrder.ts";

/** What lies in a body keeps to it: an opening that a lower rim has pushed down decides where the water stops, and nobody
 * has asked for that. It is said which parts gave way to what was typed. */
export function tellPushed(desk: Desk, before: Section, typed: readonly PartId[]): void {
  const { section } = desk.get();
  const names = inOrder(section)
    .filter((part) => !typed.includes(part.id) && gaveWay(before.parts.get(part.id), part, typed))
    .map(partName);
  if (names.length === 0) return;
  const shown = names.length > 4 ? [...names.slice(0, 3), `${names.length - 3} more`] : names;
  desk.say({ text: `${listed(shown)} gave way, to stay within it. Undo takes it back.`, tone: "plain" });
}

function gaveWay(was: Part | undefined, part: Part, bodies: readonly PartId[]): boolean {
  if (part.kind === "pump" && was?.kind === "pump")
    return part.in !== undefined && bodies.includes(part.in) && (was.x !== part.x || was.z !== part.z);
  if (part.kind === "spillway" && was?.kind === "spillway")
    return bodies.includes(part.from) && was.crestZ !== part.crestZ;
  if (part.kind === "pipe" && was?.kind === "pipe")
    return (["from", "to"] as const).some((which) => endGaveWay(was[which], part[which], bodies));
  return false;
}

const endGaveWay = (was: PipeEnd, end: PipeEnd, bodies: readonly PartId[]): boolean =>
  "part" in end && "part" in was && bodies.includes(end.part) && (was.z !== end.z || was.x !== end.x);
