/** Writes a section as the text of a file. Reading it again gives the same section.
 *
 * Parts stand in the order of their rank, fields in the order of the format, absent fields stay absent. Short
 * things stay on a line (a point, an end, a layer), so that a person can read the file and a comparison of two
 * versions shows what changed. */
import { must } from "../must.ts";
import { format, version } from "./read.ts";
import type { Part, Section } from "./section.ts";

export const writeSection = (section: Section): string => `${lines(fileOf(section), "", 0)}\n`;

/** What the text says, as a value: `readSectionValue` takes it. Absent fields may be there as undefined. */
export function fileOf({ title, site, parts }: Section): unknown {
  return { format, version, title, site, parts: [...parts.values()].sort((a, b) => a.rank - b.rank).map(withoutRank) };
}

function withoutRank({ rank: _, ...fields }: Part): Omit<Part, "rank"> {
  return fields;
}

/** One order for all kinds: no two of them disagree, nor do the objects within them. */
const order: ReadonlyMap<string, number> = new Map(
  [
    ["format", "version", "title", "site", "parts"],
    ["groundLevel", "waterTemperature", "friction", "freeboard", "tariff", "currency"],
    [
      "id",
      "kind",
      "label",
      "type",
      "k",
      "count",
      "on",
      "part",
      "pipe",
      "at",
      "from",
      "to",
      "route",
      "bore",
      "open",
      "x",
      "z",
      "mouth",
    ],
    ["shape", "diameter", "depth", "grain", "porosity", "plan", "crestZ", "width", "length"],
    ["bedLevel", "baseLevel", "rimLevel", "waterLevel", "sideSlope", "media", "clogging", "overflow"],
    ["in", "outletBore", "curve", "maxFlow", "maxHead", "watts", "stoppedK", "speed"],
    ["nominal", "material", "hazenWilliamsC", "roughness", "bends", "extraLength", "fittings"],
    ["role", "stuckOpen", "openingHead", "openEndZ", "crest", "text"],
  ]
    .flat()
    .map((name, place) => [name, place]),
);

const widest = 100;
/** The file, its list of parts and each part are laid out over lines whatever their width. */
const alwaysOpen = 3;

function lines(value: unknown, indent: string, depth: number): string {
  if (typeof value !== "object" || value === null || Object.keys(value).length === 0) return onOneLine(value);
  const flat = depth >= alwaysOpen ? onOneLine(value) : null;
  if (flat !== null && flat.length <= widest) return flat;
  const deeper = `${indent}  `;
  const inner = Array.isArray(value)
    ? value.map((member) => deeper + lines(member, deeper, depth + 1))
    : fieldsOf(value).map(([name, field]) => `${deeper}${JSON.stringify(name)}: ${lines(field, deeper, depth + 1)}`);
  const [open, close] = Array.isArray(value) ? "[]" : "{}";
  return `${open}\n${inner.join(",\n")}\n${indent}${close}`;
}

function onOneLine(value: unknown): string {
  if (typeof value === "number") must(Number.isFinite(value), `a section holds finite numbers, not ${value}`);
  if (Array.isArray(value)) return `[${value.map(onOneLine).join(", ")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const fields = fieldsOf(value).map(([name, field]) => `${JSON.stringify(name)}: ${onOneLine(field)}`);
  return fields.length === 0 ? "{}" : `{ ${fields.join(", ")} }`;
}

function fieldsOf(value: object): [string, unknown][] {
  return Object.entries(value)
    .filter(([, field]) => field !== undefined)
    .sort(([a], [b]) => placeOf(a) - placeOf(b));
}

function placeOf(name: string): number {
  const place = order.get(name);
  must(place !== undefined, `no place in the file's order for a field called ${name}`);
  return place;
}
