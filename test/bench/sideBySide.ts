/** Sheets with any number of parts: the same small system again and again, in columns and in rows one under the
 * other, so that everything is in sight at once and nothing joins one system to the next. */
import { moveParts } from "../../editor/state/actions/moveParts.ts";
import type { Part, PartId, Section } from "../../hydraulics/index.ts";
import {
  checkValve,
  flushPipe,
  flushValve,
  note,
  pipe,
  pond,
  pump,
  returnPipe,
  section,
  valve,
  vent,
  vessel,
} from "../support/builders.ts";

/** Parts of one system: a supply with a throttle and a flap, a vent, a return, a flush with its valve, a note. */
const system = (): readonly Part[] => [
  pond(),
  vessel(),
  pump(),
  pipe(),
  valve({ open: 0.8 }),
  checkValve(),
  vent(),
  returnPipe(),
  flushPipe(),
  flushValve(),
  note({ text: "Rinse in May", x: 1.2, z: -1.1 }),
];

const apart = 7.5;
const under = 2.4;

/** The first `count` parts of as many systems as that takes. A cut system ends early in the order above: whatever a
 * part stands on comes before it. */
export function sideBySide(count: number): { readonly section: Section; readonly dragged: PartId } {
  const of = system();
  const systems = Math.ceil(count / of.length);
  const columns = Math.ceil(Math.sqrt(systems * 2.4));
  const rows = Math.ceil(systems / columns);
  const parts: Part[] = [];
  for (let k = 0; k < systems; k++) {
    const moved = moveParts(
      section(of),
      new Set(of.map(({ id }) => id)),
      apart * (k % columns),
      under * ((rows - 1) / 2 - Math.floor(k / columns)),
    );
    if (!moved.ok) throw new Error(moved.why);
    for (const part of moved.section.parts.values()) parts.push(renamed(part, k));
  }
  // The middle one: its surroundings are those of most.
  const middle = Math.floor(systems / 2);
  return {
    section: section(parts.slice(0, count), { title: `${count} parts` }),
    dragged: `vessel-${middle}` as PartId,
  };
}

/** The part, and what it names, with the system's number. */
function renamed(part: Part, k: number): Part {
  const names = new Set(system().map(({ id }) => id as string));
  const rename = (value: unknown, key: string): unknown => {
    if (typeof value === "string")
      return key !== "kind" && key !== "text" && key !== "type" && key !== "role" && names.has(value)
        ? `${value}-${k}`
        : value;
    if (Array.isArray(value)) return value.map((entry) => rename(entry, key));
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([name, entry]) => [name, rename(entry, name)]));
  };
  return rename(part, "") as Part;
}
