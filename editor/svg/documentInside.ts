/** The drawing that rides in an SVG of ours, as the text it was written as. Needs no browser.
 *
 * The whole file is walked as XML, tag by tag, once: a file that was cut in half or broken by hand is told from
 * one that never held a drawing, and nothing inside a comment or an attribute is taken for the drawing. */
import type { Result } from "../../hydraulics/index.ts";

export const metadataId = "holdwater-section";
/** characters; a drawing of the greatest size with all of its picture is smaller */
const greatest = 64 * 1024 * 1024;
/** how deep elements may lie in each other */
const deepest = 256;

/** The error says what was found in place of a drawing, so that it can follow "found". */
export function sectionTextFromSvg(text: string): Result<string, string> {
  if (text.length > greatest) return no(`a file of ${Math.ceil(text.length / 1024 / 1024)} million characters`);
  try {
    return { ok: true, value: walk(text.replace(/^\uFEFF/, "")) };
  } catch (trouble) {
    if (trouble instanceof Unreadable) return no(trouble.message);
    throw trouble;
  }
}

const no = (error: string): Result<string, string> => ({ ok: false, error });

/** Thrown and caught in this file only: the way out of a deep walk. */
class Unreadable extends Error {}

const cut = "an SVG that ends in the middle; it was perhaps not copied whole";
const spoiled = (where: string): string => `an SVG that is not well-formed (${where}); it was perhaps edited by hand`;

interface Open {
  readonly name: string;
  readonly holdsDrawing: boolean;
}

function walk(text: string): string {
  const open: Open[] = [];
  let found: string | null = null;
  let gathered: string[] = [];
  let rootSeen = false;
  let at = 0;
  const gather = (words: string): void => {
    if (open.at(-1)?.holdsDrawing) gathered.push(words);
    else if (open.length === 0 && words.trim() !== "") throw new Unreadable(spoiled("words outside the picture"));
  };
  while (at < text.length) {
    const tag = text.indexOf("<", at);
    if (tag !== at) {
      const words = text.slice(at, tag < 0 ? text.length : tag);
      gather(open.at(-1)?.holdsDrawing ? withoutEntities(words) : words);
      if (tag < 0) break;
    }
    if (text.startsWith("<!--", tag)) at = after(text, "-->", tag + 4);
    else if (text.startsWith("<![CDATA[", tag)) {
      at = after(text, "]]>", tag + 9);
      gather(text.slice(tag + 9, at - 3));
    } else if (text.startsWith("<?", tag)) at = after(text, "?>", tag + 2);
    else if (text.startsWith("<!", tag))
      throw new Unreadable("an SVG with a document type of its own, which is not read");
    else if (text.startsWith("</", tag)) {
      at = after(text, ">", tag + 2);
      const name = text.slice(tag + 2, at - 1).trimEnd();
      const last = open.pop();
      if (last?.name !== name) throw new Unreadable(spoiled(`</${name.slice(0, 40)}> closes nothing that is open`));
      if (last.holdsDrawing) {
        if (found !== null) throw new Unreadable("an SVG that holds more than one drawing");
        found = gathered.join("");
        gathered = [];
      }
    } else {
      const start = startTag(text, tag);
      at = start.end;
      if (open.length === 0) {
        if (rootSeen) throw new Unreadable(spoiled("more than one picture"));
        rootSeen = true;
        if (localName(start.name) !== "svg") throw new Unreadable("a file that is neither JSON nor an SVG");
      } else if (open.at(-1)?.holdsDrawing) throw new Unreadable(spoiled("elements where the drawing should stand"));
      const holdsDrawing = localName(start.name) === "metadata" && start.attributes.get("id") === metadataId;
      if (!start.isEmpty) open.push({ name: start.name, holdsDrawing });
      if (open.length > deepest) throw new Unreadable(`an SVG whose elements lie more than ${deepest} deep`);
    }
  }
  if (open.length > 0) throw new Unreadable(cut);
  if (!rootSeen) throw new Unreadable("a file that is neither JSON nor an SVG");
  if (found === null || found.trim() === "")
    throw new Unreadable(
      "an SVG that holds no drawing: it was not written here, or another program took the drawing out",
    );
  return found;
}

function after(text: string, end: string, from: number): number {
  const at = text.indexOf(end, from);
  if (at < 0) throw new Unreadable(cut);
  return at + end.length;
}

const localName = (name: string): string => name.slice(name.indexOf(":") + 1);

interface StartTag {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly isEmpty: boolean;
  readonly end: number;
}

const nameAt = /[A-Za-z_:\u0080-\uFFFF][-\w.:\u0080-\uFFFF]*/y;
const spaceAt = /[ \t\r\n]*/y;

function startTag(text: string, tag: number): StartTag {
  const name = match(nameAt, text, tag + 1);
  if (name === "") throw new Unreadable(tag + 1 >= text.length ? cut : spoiled("a < that begins no element"));
  const attributes = new Map<string, string>();
  let at = tag + 1 + name.length;
  for (;;) {
    const space = match(spaceAt, text, at);
    at += space.length;
    if (at >= text.length) throw new Unreadable(cut);
    if (text[at] === ">") return { name, attributes, isEmpty: false, end: at + 1 };
    if (text.startsWith("/>", at)) return { name, attributes, isEmpty: true, end: at + 2 };
    const key = match(nameAt, text, at);
    if (key === "" || space === "")
      throw new Unreadable(text.slice(at) === "/" ? cut : spoiled(`inside <${name.slice(0, 40)}>`));
    at += key.length;
    at += match(spaceAt, text, at).length;
    if (at >= text.length) throw new Unreadable(cut);
    if (text[at] !== "=") throw new Unreadable(spoiled(`inside <${name.slice(0, 40)}>`));
    at += 1;
    at += match(spaceAt, text, at).length;
    const quote = text[at];
    if (quote === undefined) throw new Unreadable(cut);
    if (quote !== '"' && quote !== "'") throw new Unreadable(spoiled(`inside <${name.slice(0, 40)}>`));
    const end = after(text, quote, at + 1);
    const value = text.slice(at + 1, end - 1);
    if (value.includes("<") || attributes.has(key)) throw new Unreadable(spoiled(`inside <${name.slice(0, 40)}>`));
    attributes.set(key, value);
    at = end;
  }
}

function match(pattern: RegExp, text: string, at: number): string {
  pattern.lastIndex = at;
  return pattern.exec(text)?.[0] ?? "";
}

const named: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

function withoutEntities(words: string): string {
  return words.replace(/&([^;&]{0,12})(;?)/g, (all, inside: string, end: string) => {
    const letter = end === ";" ? (Object.hasOwn(named, inside) ? named[inside] : byNumber(inside)) : undefined;
    if (letter === undefined) throw new Unreadable(spoiled(`${all.slice(0, 14)} stands for nothing`));
    return letter;
  });
}

function byNumber(inside: string): string | undefined {
  const digits = /^#(?:x([0-9A-Fa-f]{1,6})|([0-9]{1,7}))$/.exec(inside);
  if (!digits) return undefined;
  const code = digits[1] === undefined ? Number(digits[2]) : Number.parseInt(digits[1], 16);
  const allowed =
    code === 9 ||
    code === 10 ||
    code === 13 ||
    (code >= 0x20 && code <= 0x10ffff && !(code >= 0xd800 && code <= 0xdfff));
  return allowed && code !== 0xfffe && code !== 0xffff ? String.fromCodePoint(code) : undefined;
}
