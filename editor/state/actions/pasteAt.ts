import { type Point, readSection, type Section } from "../../../hydraulics/index.ts";
import { extremesOf } from "../../sheet/transform.ts";
import { type Pasted, pasteParts } from "./copyParts.ts";
import { round } from "./newPart.ts";

/** Sets copied parts down with their middle at a place. */
export function pasteAt(section: Section, text: string, [x, z]: Point): Pasted {
  const read = readSection(text);
  if (!read.ok) return pasteParts(section, text, 0, 0);
  // What stands on a pipe goes along with it, a riser too.
  const places = [...read.value.parts.values()].flatMap((part) =>
    part.kind === "vent" ? [] : extremesOf(read.value, part),
  );
  if (places.length === 0) return pasteParts(section, text, 0, 0);
  const middle = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;
  return pasteParts(
    section,
    text,
    round(x - middle(places.map(([px]) => px))),
    round(z - middle(places.map(([, pz]) => pz))),
  );
}
