/** Reads a section document: untrusted text in, a section out, or everything that is wrong with it.
 *
 * Four passes, each over what the one before could read: the file's frame, each part by itself (its kind's
 * table in `kinds/`), what parts say of each other, and the places that follow (`layout.ts`). A file with
 * any problem is refused whole: nothing is dropped, guessed or repaired. */
import { kinds } from "./kinds/index.ts";
import type { Kind } from "./kinds/kind.ts";
import { Names } from "./kinds/names.ts";
import { agreeOnPlaces } from "./layout.ts";
import { most, ranges } from "./limits.ts";
import type { Amounts, Part, PartId, PartKind, Problem, Result, Section, Site } from "./section.ts";
import { type Check, isObject, may, number, object, oneOf, text } from "./shape/check.ts";
import { parseJson } from "./shape/parseJson.ts";
import { inside, type Place } from "./shape/place.ts";
import { Problems } from "./shape/problems.ts";

export const format = "holdwater-section";
export const version = 1;

/** The section in a file's text. Problems name figures as the file has them, or as `amounts` words them. */
export function readSection(file: string, amounts?: Amounts): Result<Section, readonly Problem[]> {
  if (isTooLarge(file)) {
    const found = `${(file.length / 1024 / 1024).toFixed(1)} million characters or more`;
    return {
      ok: false,
      error: [{ path: "", expected: `a file of at most ${most.fileSize / 1024 / 1024} MiB`, found }],
    };
  }
  const parsed = parseJson(file);
  return parsed.ok ? readSectionValue(parsed.value, amounts) : parsed;
}

/** The section in a value that came out of JSON. */
export function readSectionValue(value: unknown, amounts?: Amounts): Result<Section, readonly Problem[]> {
  const problems = new Problems(amounts);
  const section = readFrame(value, problems);
  return section && problems.count === 0 ? { ok: true, value: section } : { ok: false, error: problems.list() };
}

/** More bytes of UTF-8 than a file may have. A UTF-16 unit takes one to three. */
function isTooLarge(file: string): boolean {
  if (file.length > most.fileSize) return true;
  if (file.length * 3 <= most.fileSize) return false;
  let bytes = file.length;
  for (let i = 0; i < file.length; i++) {
    const unit = file.charCodeAt(i);
    // Half of a surrogate pair is two of the pair's four bytes.
    if (unit >= 0x80) bytes += unit >= 0x800 && (unit < 0xd800 || unit > 0xdfff) ? 2 : 1;
  }
  return bytes > most.fileSize;
}

const site = object<Site>("the site", {
  groundLevel: may(number(ranges.level)),
  waterTemperature: may(number(ranges.waterTemperature)),
  friction: may(oneOf("hazen-williams", "darcy-weisbach")),
  freeboard: may(number(ranges.freeboard)),
  tariff: may(number(ranges.tariff)),
  currency: may(text),
});

const frameFields = ["format", "version", "title", "site", "parts"];

/** A title or a site may be missing; parts may not, because a file without them is not a drawing. */
function readFrame(value: unknown, problems: Problems): Section | undefined {
  if (!isObject(value)) {
    problems.add(null, "an object with format, version, title, site and parts", value);
    return undefined;
  }
  const given = (name: string) => (Object.hasOwn(value, name) ? value[name] : undefined);
  // Of another format or version nothing else can be said.
  if (given("format") !== format) {
    problems.add(inside(null, "format"), `"${format}"`, given("format"));
    return undefined;
  }
  if (given("version") !== version) {
    problems.add(inside(null, "version"), `${version}, the version that this program reads`, given("version"));
    return undefined;
  }
  for (const name of Object.keys(value)) {
    if (frameFields.includes(name)) continue;
    problems.addWords(
      inside(null, name),
      `no such field: a drawing has ${frameFields.join(", ")}`,
      "a field of that name",
    );
  }
  const title = given("title") === undefined ? "" : text(given("title"), inside(null, "title"), problems);
  const ofSite = given("site") === undefined ? {} : site(given("site"), inside(null, "site"), problems);
  const places = new Map<PartId, Place>();
  const parts = readParts(given("parts"), inside(null, "parts"), places, problems);
  const section: Section = { title: title ?? "", site: ofSite ?? {}, parts };
  agreeOnPlaces({ section, places, problems });
  return section;
}

/** The readable parts; notes where each stands in the file. What they say of each other is asked of those too whose
 * neighbours are not readable. */
function readParts(
  value: unknown,
  at: Place,
  places: Map<PartId, Place>,
  problems: Problems,
): ReadonlyMap<PartId, Part> {
  const parts = new Map<PartId, Part>();
  if (!Array.isArray(value) || value.length > most.parts) {
    problems.add(at, `a list of at most ${most.parts} parts`, value);
    return parts;
  }
  const names = new Names();
  const firstAt = new Map<string, number>();
  for (let i = 0; i < value.length; i++) {
    const place = inside(at, i);
    const part = readPart(value[i], i, place, problems);
    const { id, kind } = namesOf(value[i]);
    if (id === null) continue;
    const first = firstAt.get(id);
    if (first !== undefined) {
      problems.add(inside(place, "id"), `an id of its own (parts[${first}] has this one)`, id);
      continue;
    }
    firstAt.set(id, i);
    names.add(id, kind, part);
    if (!part) continue;
    parts.set(part.id, part);
    places.set(part.id, place);
  }
  for (const part of parts.values()) kindOf(part).refer?.(part, places.get(part.id) as Place, names, problems);
  return parts;
}

/** What a part calls itself, however little of the rest can be read. */
function namesOf(value: unknown): { id: string | null; kind: PartKind | null } {
  if (!isObject(value)) return { id: null, kind: null };
  const id = Object.hasOwn(value, "id") && typeof value.id === "string" ? value.id : null;
  return { id, kind: Object.hasOwn(value, "kind") && isKind(value.kind) ? value.kind : null };
}

const isKind = (value: unknown): value is PartKind => typeof value === "string" && Object.hasOwn(kinds, value);

/** The table's row for a part. The one cast that says a row takes parts of its own kind. */
const kindOf = (part: Part): Kind<Part> => kinds[part.kind] as unknown as Kind<Part>;

const kindWord = oneOf(...(Object.keys(kinds) as PartKind[]));
const partChecks = new Map<PartKind, Check<Omit<Part, "rank">>>(
  Object.entries(kinds).map(([kind, { called, fields }]) => [kind as PartKind, object(called, fields as never)]),
);

function readPart(value: unknown, rank: number, at: Place, problems: Problems): Part | undefined {
  if (!isObject(value)) {
    problems.add(at, "a part: an object with an id and a kind", value);
    return undefined;
  }
  const kind = kindWord(Object.hasOwn(value, "kind") ? value.kind : undefined, inside(at, "kind"), problems);
  const read = kind && partChecks.get(kind)?.(value, at, problems);
  if (!read) return undefined;
  const part = { ...read, rank } as Part;
  kindOf(part).agree?.(part, at, problems);
  return part;
}
