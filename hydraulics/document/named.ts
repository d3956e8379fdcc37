/** A name for every part of a drawing: what its report calls it. A file's ids are for programs; people read words.
 *
 * A part without a label is called by its id in words (`purge-valve`: purge valve), as on the sheet; where the id says
 * no more than the kind, by that ("the pipe"), and where it says no word at all, by both ("pipe 7"). */
import { kindWords } from "./kindWords.ts";
import type { Part, PartId, PartKind, Section } from "./section.ts";

/** The same drawing with a label on every part. */
export function named(section: Section): Section {
  const parts = new Map<PartId, Part>();
  for (const [id, part] of section.parts)
    parts.set(id, hasLabel(part) ? part : { ...part, label: givenName(section, part) });
  return { ...section, parts };
}

/** A drawing that was made of a named one, without the names that `named` gave. */
export function withoutGivenNames(made: Section, section: Section): Section {
  const parts = new Map<PartId, Part>();
  for (const [id, part] of made.parts) {
    const was = section.parts.get(id);
    if (!was || hasLabel(was) || part.label !== givenName(section, was)) parts.set(id, part);
    else {
      const { label, ...rest } = part;
      parts.set(id, (was.label === undefined ? rest : { ...rest, label: was.label }) as Part);
    }
  }
  return { ...made, parts };
}

const hasLabel = ({ label }: Part): boolean => label !== undefined && label.trim() !== "";

function givenName(section: Section, { id, kind }: Part): string {
  const kindWord = kindWords[kind];
  const words = id.replace(/-+/g, " ").trim();
  // The first of its kind was given no number, and is the first all the same.
  if (words === kindWord) return isOnly(section, kind) ? `the ${kindWord}` : `${kindWord} 1`;
  return /[a-z]{3}/.test(words) ? words : `${kindWord} ${words}`.trim();
}

function isOnly({ parts }: Section, kind: PartKind): boolean {
  let count = 0;
  for (const part of parts.values()) if (part.kind === kind) count++;
  return count === 1;
}
