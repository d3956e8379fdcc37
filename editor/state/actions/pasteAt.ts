import {
  bottomOf,
  drawnWidth,
  type Part,
  type Point,
  pipeLine,
  readSection,
  type Section,
} from "../../../hydraulics/index.ts";
import { type Pasted, pasteParts } from "./copyParts.ts";
import { round } from "./newPart.ts";

/** Sets copied parts down with their middle at a place. */
export function pasteAt(section: Section, text: string, [x, z]: Point): Pasted {
  const read = readSection(text);
  if (!read.ok) return pasteParts(section, text, 0, 0);
  const places = [...read.value.parts.values()].flatMap((part) => placesOf(read.value, part));
  if (places.length === 0) return pasteParts(section, text, 0, 0);
  const middle = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;
  return pasteParts(
    section,
    text,
    round(x - middle(places.map(([px]) => px))),
    round(z - middle(places.map(([, pz]) => pz))),
  );
}

function placesOf(section: Section, part: Part): readonly Point[] {
  switch (part.kind) {
    case "pond":
    case "vessel":
      return [
        [part.x, bottomOf(part)],
        [part.x + drawnWidth(part), part.rimLevel],
      ];
    case "pump":
    case "note":
      return [[part.x, part.z]];
    case "pipe":
      return pipeLine(section, part);
    case "valve":
    case "checkValve":
    case "vent":
    case "spillway":
      return [];
  }
}
