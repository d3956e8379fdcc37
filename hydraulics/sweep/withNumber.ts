/** A drawing with one number changed, or why that is no drawing: in the reader's own words, since the changed
 * drawing goes through the reader like any other. */
import { readSectionValue } from "../document/read.ts";
import type { Amounts, PartId, Point, Problem, Result, Section } from "../document/section.ts";
import { writeSection } from "../document/write.ts";
import { type FieldPath, raised, type SweptField } from "./numberFields.ts";

/** A file's object, as it is parsed. */
type Loose = { [key: string]: unknown };

/** @param amounts how a refusal writes its figures; as the file has them where it is left out */
export function withNumber(
  section: Section,
  { part, path }: Pick<SweptField, "part" | "path">,
  value: number,
  amounts?: Amounts,
): Result<Section, string> {
  const file = JSON.parse(writeSection(section)) as Loose & { site?: Loose; parts: Loose[] };
  file.site ??= {};
  const target = part === null ? file.site : file.parts.find((candidate) => candidate.id === part);
  if (!target) return { ok: false, error: `${part} is not in this drawing` };
  if (path[0] === raised[0]) raise(file.parts, target, value);
  else {
    put(target, path, value);
    // A bore of its own is no longer the one of a listed size.
    if (path[0] === "bore") delete target.nominal;
  }
  return checked(file, amounts);
}

/** A pipe in a size that is sold. */
export function withSize(
  section: Section,
  part: PartId,
  size: { readonly bore: number; readonly nominal: string; readonly material: string },
): Result<Section, string> {
  const file = JSON.parse(writeSection(section)) as { parts: Loose[] };
  const target = file.parts.find((candidate) => candidate.id === part);
  if (!target) return { ok: false, error: `${part} is not in this drawing` };
  Object.assign(target, size);
  return checked(file);
}

function checked(file: unknown, amounts?: Amounts): Result<Section, string> {
  const read = readSectionValue(file, amounts);
  return read.ok ? read : { ok: false, error: reasonOf(read.error) };
}

function reasonOf([first, ...rest]: readonly Problem[]): string {
  if (!first) return "this is no drawing";
  const more = rest.length > 0 ? `, and ${rest.length} more` : "";
  return `wanted is ${first.expected}, found ${first.found}${more}`;
}

function put(target: Loose, path: FieldPath, value: number): void {
  let at = target as { [key: string | number]: unknown };
  for (const key of path.slice(0, -1)) at = at[key] as { [key: string | number]: unknown };
  at[path.at(-1) as string | number] = value;
}

/** The vessel's base to a level, and with it its rim, the mouths in it with the level legs that lead to them, and
 * the sills cut into it. What stands on the ground, and what crosses over, stays. */
function raise(parts: readonly Loose[], vessel: Loose, base: number): void {
  const by = base - (vessel.baseLevel as number);
  vessel.baseLevel = base;
  vessel.rimLevel = (vessel.rimLevel as number) + by;
  for (const part of parts) {
    if (part.kind === "spillway" && part.from === vessel.id) part.crestZ = (part.crestZ as number) + by;
    if (part.kind !== "pipe") continue;
    const route = ((part.route as Point[] | undefined) ?? []).map(([x, z]): [number, number] => [x, z]);
    for (const [side, legs] of [
      ["from", route],
      ["to", [...route].reverse()],
    ] as const) {
      const end = part[side] as { part?: unknown; z?: number };
      if (end.part !== vessel.id || end.z === undefined) continue;
      const was = end.z;
      end.z = was + by;
      for (const leg of legs) {
        if (Math.abs(leg[1] - was) > 1e-9) break;
        leg[1] += by;
      }
    }
    if (route.length > 0) part.route = route;
  }
}
