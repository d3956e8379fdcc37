/** Copied parts as the text that goes on the clipboard: a drawing of its own.
 *
 * A valve alone is no drawing: its pipe goes along to carry it, and a first line before the drawing names such carriers.
 * They are not pasted; what they carry goes onto the part of that name which is there. */
import { type PartId, partId, readSection, type Section, writeSection } from "../../../hydraulics/index.ts";

export interface Copied {
  readonly section: Section;
  readonly carriers: ReadonlySet<PartId>;
}

const firstLine = /^stands on: ([a-z0-9 -]+)\n/;

export const copiedText = ({ section, carriers }: Copied): string =>
  (carriers.size === 0 ? "" : `stands on: ${[...carriers].join(" ")}\n`) + writeSection(section);

/** Null where the text is no drawing. */
export function readCopied(text: string): Copied | null {
  const line = firstLine.exec(text);
  const read = readSection(line ? text.slice(line[0].length) : text);
  if (!read.ok) return null;
  return { section: read.value, carriers: new Set(line?.[1]?.split(" ").map(partId)) };
}
