/** Random drawings at the bounds of what the reader lets through: bores from 1 mm to 2 m, pipes up to 10 km, levels up
 * to 100 m over and under the datum, curves of two to forty points, whatever fits no garden. Made of `wild` ones. */
import { readSection } from "../../hydraulics/document/read.ts";
import type { Section } from "../../hydraulics/document/section.ts";
import { writeSection } from "../../hydraulics/document/write.ts";
import { randomSection } from "../support/randomSection.ts";
import { seeded } from "../support/seeded.ts";

type Value = string | number | boolean | null | readonly Value[] | { readonly [key: string]: Value };
type Fields = { [key: string]: Value };

const sizes = new Set(["x", "z", "width", "length", "diameter", "depth"]);
const isLevel = (field: string): boolean => /(Level|Z)$/.test(field);

/** null where the reader refuses it: a pipe grew too long, a place on it fell off. */
export function extremeSection(seed: number): Section | null {
  const random = seeded(seed * 977 + 5);
  const log = (low: number, high: number): number =>
    Number(Math.exp(random.between(Math.log(low), Math.log(high))).toPrecision(4));
  const times = log(1, 30);
  const drawing = JSON.parse(writeSection(randomSection({ seed, size: 1 + (seed % 4), mode: "wild" })));
  const large = grown("", drawing, times) as { parts: Fields[] };
  for (const part of large.parts) {
    if (part.kind === "pipe") {
      part.bore = log(0.001, 2);
      if (random.chance(0.4)) part.extraLength = log(0.01, 1e4);
    }
    if (part.kind === "vent" && random.chance(0.5)) part.bore = log(0.001, 0.5);
    if (part.kind !== "pump") continue;
    const greatestFlow = log(1e-6, 1);
    const greatestHead = log(0.05, 200);
    for (const field of ["curve", "maxFlow", "maxHead"]) delete part[field];
    if (part.outletBore) part.outletBore = log(0.001, 2);
    if (random.chance(0.7)) {
      const points = random.pick([2, 2, 3, 7, 40, 40]);
      part.curve = curve(greatestFlow, greatestHead, points, random.between(0.4, 4));
    } else Object.assign(part, { maxFlow: greatestFlow, maxHead: greatestHead });
  }
  const read = readSection(JSON.stringify(large));
  return read.ok ? read.value : null;
}

/** Every place and size of a drawing so many times as large. */
function grown(field: string, value: Value, times: number): Value {
  // Rounded down, so that what lies on a pipe stays on it.
  if (typeof value === "number" && field === "at") return Math.floor(value * times * 0.9999 * 1e4) / 1e4;
  if (typeof value === "number") return sizes.has(field) || isLevel(field) ? value * times : value;
  if (field === "curve") return value;
  if (Array.isArray(value)) return value.map((each) => grown(field === "route" ? "x" : field, each, times));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, grown(key, inner, times)]));
}

/** Heads that fall from each point to the next, if by a millionth. */
function curve(flow: number, head: number, points: number, bulge: number): readonly (readonly [number, number])[] {
  let last = Number.POSITIVE_INFINITY;
  return Array.from({ length: points }, (_, k) => {
    const share = k / (points - 1);
    const there = k === points - 1 ? 0 : Number((head * (1 - share ** bulge)).toPrecision(8));
    last = Math.min(there, last * (1 - 1e-6));
    return [Number((flow * share).toPrecision(6)), last] as const;
  });
}
