/** Carries out a change and keeps the document readable: what the change left loose is mended in the same
 * edit (`settle.ts`), and what would still not be read again is refused in words. */
import type { Draft } from "immer";
import { fileOf, readSection, readSectionValue, type Section, writeSection } from "../../../hydraulics/index.ts";
import { fieldName } from "../../sheet/fieldName.ts";
import { partName } from "../../sheet/partName.ts";
import { refusalFigures } from "../../sheet/refusalFigures.ts";
import type { UnitSystem } from "../../sheet/units.ts";
import { type Changed, type Edit, joinEdits, makeEdit } from "../edit.ts";
import { leadsBack } from "./leadsBack.ts";
import { settle } from "./settle.ts";
import { drawingOfThese, touched } from "./touched.ts";

/** Mends may uncover one another (a pipe gets shorter, so a tee on it moves, so a vent on that tee's pipe
 * moves); more rounds than this have never been needed. */
const rounds = 6;

export interface ActOptions {
  readonly hold?: string;
}

export function act(
  section: Section,
  label: string,
  change: (draft: Draft<Section>) => void,
  options: ActOptions = {},
): Changed {
  const first = makeEdit(section, label, change);
  if (!first.edit) return { ok: true, section, edit: null };
  let next = first.section;
  let edit: Edit | null = first.edit;
  for (let round = 0; round < rounds; round++) {
    const loop = leadsBack(next);
    if (loop) return { ok: false, why: loop };
    const mended = settle(section, next, label);
    if (!mended.edit) break;
    next = mended.section;
    edit = joinEdits(edit, mended.edit);
  }
  // Equal values in new objects are no change: a part put back where it was, a field typed as it stood.
  if (sameText(section, next)) return { ok: true, section, edit: null };
  const grows = moreWords(section, next);
  const doubtful = grows ? next : drawingOfThese(next, touched(section, next));
  // A text takes a drag as long as all that it reads, and only says more than a value where it may be too long.
  const again = grows ? readSection(writeSection(next)) : readSectionValue(fileOf(doubtful));
  if (!again.ok) {
    const whyIn = (system: UnitSystem): string => whyNot(doubtful, system);
    return { ok: false, why: whyIn("metric"), whyIn };
  }
  return {
    ok: true,
    section: next,
    edit: options.hold === undefined || !edit ? edit : { ...edit, hold: options.hold },
  };
}

/** Whether there is more to write than before but for digits: then the whole file may be too large. */
function moreWords(before: Section, now: Section): boolean {
  if (before.title !== now.title || before.site !== now.site || now.parts.size > before.parts.size) return true;
  for (const [id, part] of now.parts) {
    const was = before.parts.get(id);
    if (was === part) continue;
    if (!was || was.kind !== part.kind || was.label !== part.label) return true;
    if (part.kind === "note" && was.kind === "note" && was.text !== part.text) return true;
  }
  return false;
}

/** Whether two sections say the same; parts that are one object are not looked at. */
function sameText(a: Section, b: Section): boolean {
  if (a.title !== b.title || a.parts.size !== b.parts.size) return false;
  if (a.site !== b.site && JSON.stringify(a.site) !== JSON.stringify(b.site)) return false;
  for (const [id, part] of a.parts) {
    const other = b.parts.get(id);
    if (part !== other && JSON.stringify(part) !== JSON.stringify(other)) return false;
  }
  return true;
}

/** The first of what is wrong with it. A problem's path names parts by their place in the file; a person knows them and
 * their fields by their names. */
function whyNot(section: Section, system: UnitSystem): string {
  const read = readSection(writeSection(section), refusalFigures(system));
  const problem = read.ok ? undefined : read.error[0];
  if (!problem) return "This can not be kept in a drawing.";
  const { path, expected, found } = problem;
  const place = /^parts\[(\d+)\]\.?(.*)$/.exec(path);
  const parts = [...section.parts.values()].sort((a, b) => a.rank - b.rank);
  const part = place ? parts[Number(place[1])] : undefined;
  const field = place && part ? place[2] : path;
  const named = field ? fieldName(part?.kind ?? null, field) : "";
  const where = part ? [partName(part), named].filter(Boolean).join(", ") : named;
  return `${where}: expected ${expected}, found ${found}.`;
}
