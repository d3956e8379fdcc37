/** A whole drawing in the part of a link that no server sees: `#drawing=COUNT.CHECK.LETTERS`.
 *
 * LETTERS are the document, deflated, in base64url; COUNT (base 36) says how many there are, so that a link that was
 * cut is told from one that was damaged; CHECK (base 36) is the CRC-32 of the document's bytes. */
import { most, type Problem, type Result, readSection, type Section, writeSection } from "../../hydraulics/index.ts";
import { fromBase64url, toBase64url } from "./base64url.ts";
import { crc32 } from "./crc32.ts";
import { deflate, inflate } from "./deflate.ts";

/** Letters that a link may have: what mail programs and messengers pass on whole, from memory. */
export const longestLink = 16_000;
/** Letters that are looked at when one is opened. */
const longestRead = 2_000_000;

const start = "#drawing=";

export const holdsDrawing = (hash: string): boolean => /^#drawing(=|%3D)/i.test(hash);

/** The fragment, or why there is none, as a sentence. */
export async function fragmentOf(section: Section): Promise<Result<string, string>> {
  const bytes = new TextEncoder().encode(JSON.stringify(JSON.parse(writeSection(section))));
  const letters = toBase64url(await deflate(bytes));
  const fragment = `${start}${letters.length.toString(36)}.${crc32(bytes).toString(36)}.${letters}`;
  if (fragment.length > longestLink)
    return no(
      `This drawing is too large for a link: ${counted(fragment.length)} letters, where ${counted(longestLink)} are passed on whole. Hand it out as a file.`,
    );
  return { ok: true, value: fragment };
}

export interface Refused {
  /** a sentence */
  readonly text: string;
  readonly problems: readonly Problem[];
}

export async function readFragment(hash: string): Promise<Result<Section, Refused>> {
  if (hash.length > longestRead)
    return refuse(`The link is too long to hold a drawing: ${counted(hash.length)} letters.`);
  // Some programs spell the sign out, and some break a long link into lines.
  const text = hash.replace(/^#drawing%3D/i, start).replace(/(?:\s|%20|%0[AD])+/gi, "");
  const parts = /^#drawing=([0-9a-z]{1,6})\.([0-9a-z]{1,7})\.([A-Za-z0-9_-]*)/.exec(text);
  if (!parts) return refuse("The link is cut or damaged before the drawing begins. Ask for it again, copied whole.");
  const [, count = "", check = "", letters = ""] = parts;
  const wanted = Number.parseInt(count, 36);
  if (letters.length < wanted)
    return refuse(
      `The link is cut off: it holds ${counted(letters.length)} of its ${counted(wanted)} letters. Ask for it again, copied whole.`,
    );
  const packed = fromBase64url(letters.slice(0, wanted));
  if (!packed) return refuse(damaged);
  const unpacked = await inflate(Uint8Array.from(packed), most.fileSize);
  if (!unpacked.ok)
    return refuse(unpacked.why === "damaged" ? damaged : "The link unpacks to more than a drawing may hold.");
  if (crc32(unpacked.bytes).toString(36) !== check) return refuse(damaged);
  let document: string;
  try {
    document = new TextDecoder("utf-8", { fatal: true }).decode(unpacked.bytes);
  } catch {
    return refuse(damaged);
  }
  const read = readSection(document);
  return read.ok
    ? read
    : { ok: false, error: { text: "The link holds no drawing that can be read.", problems: read.error } };
}

const damaged = "The link is damaged: some of its letters are not those it was made with. Ask for it again.";
const counted = (n: number): string => n.toLocaleString("en");
const no = (error: string): Result<never, string> => ({ ok: false, error });
const refuse = (text: string): Result<never, Refused> => ({ ok: false, error: { text, problems: [] } });
