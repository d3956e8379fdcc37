import { isDevice, type PartId, type Point, type Section } from "../../../hydraulics/index.ts";
import { extremesOf } from "../../sheet/transform.ts";
import { readCopied } from "./copiedText.ts";
import { type Pasted, pasteParts } from "./pasteParts.ts";
import { round } from "./rounded.ts";

/** Sets copied parts down with their middle at a place. Valves that come without their pipe go as near to the place as
 * they can: on the pipe that is there, else on the one they were copied from. */
export function pasteAt(section: Section, text: string, place: Point, under: PartId | null = null): Pasted {
  const near = { place, pipe: under !== null && section.parts.get(under)?.kind === "pipe" ? under : null };
  const copied = readCopied(text);
  if (!copied) return pasteParts(section, text, 0, 0);
  // What stands on a pipe goes along with it, a riser too.
  const places = [...copied.section.parts.values()].flatMap((part) =>
    isDevice(part) || copied.carriers.has(part.id) ? [] : extremesOf(copied.section, part),
  );
  if (places.length === 0) return pasteParts(section, text, 0, 0, { near });
  const middle = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;
  return pasteParts(
    section,
    text,
    round(place[0] - middle(places.map(([px]) => px))),
    round(place[1] - middle(places.map(([, pz]) => pz))),
    { near },
  );
}
