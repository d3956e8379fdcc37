/** Text of a document as it may stand on the sheet: one line of plain letters, or a few, never a command. */
import type { Weight } from "./node.ts";
import { textWidth } from "./textWidth.ts";
import { unbroken } from "./unbroken.ts";

/** Control characters and marks that turn the direction of writing become spaces. */
export function plainText(text: string): string {
  let safe = "";
  for (const letter of text) safe += isHarmless(letter.codePointAt(0) as number) ? letter : " ";
  return safe.replace(/\s+/gu, " ").trim();
}

function isHarmless(code: number): boolean {
  const control = code < 0x20 || (code >= 0x7f && code <= 0x9f) || (code >= 0xd800 && code <= 0xdfff);
  const turns = code === 0x061c || (code >= 0x200b && code <= 0x200f) || (code >= 0x2028 && code <= 0x202e);
  const isolates = code >= 0x2060 && code <= 0x206f;
  return !control && !turns && !isolates && code !== 0xfeff && (code & 0xfffe) !== 0xfffe;
}

export interface Letters {
  readonly size: number;
  readonly weight: Weight;
}

/** Cut with … so that it is no wider than `width`; not within a figure, nor between it and its unit: `0.06…` would be
 * another figure. */
export function cutText(text: string, width: number, { size, weight }: Letters): string {
  if (textWidth(text, size, weight) <= width) return text;
  const letters = [...text];
  let low = 0;
  let high = letters.length;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (textWidth(`${letters.slice(0, middle).join("").trimEnd()}…`, size, weight) <= width) low = middle;
    else high = middle - 1;
  }
  const kept = letters.slice(0, low).join("");
  return `${(beforeFigure(text, kept.length) || kept).trimEnd()}…`;
}

/** What stands before the figure that a cut falls into; nothing where it falls into none. */
function beforeFigure(text: string, cut: number): string {
  let at = 0;
  for (const word of unbroken(text)) {
    at = Math.max(text.indexOf(word, at), at);
    if (at >= cut) break;
    if (at + word.length > cut && /\d/.test(word)) return text.slice(0, at);
    at += word.length;
  }
  return "";
}

/** The same sentences come again in every frame. */
const wrapped = new Map<string, readonly string[]>();
const mostWrapped = 1000;

/** Words into lines no wider than `width`, figures never parted from their units; a word that is too long is cut, and so
 * is what does not fit. */
export function wrapText(text: string, width: number, letters: Letters, most: number): readonly string[] {
  const key = `${most} ${width} ${letters.size} ${letters.weight} ${text}`;
  let lines = wrapped.get(key);
  if (!lines) {
    lines = wrap(text, width, letters, most);
    if (wrapped.size >= mostWrapped) wrapped.clear();
    wrapped.set(key, lines);
  }
  return lines;
}

function wrap(text: string, width: number, letters: Letters, most: number): readonly string[] {
  const lines: string[] = [];
  let line = "";
  const fits = (words: string): boolean => textWidth(words, letters.size, letters.weight) <= width;
  const words = unbroken(text).flatMap((word) => (fits(word) ? [word] : word.split(" ")));
  for (const [i, word] of words.entries()) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (lines.length === most - 1)
      return [...lines, cutText([line, ...words.slice(i)].join(" ").trim(), width, letters)];
    if (line !== "") lines.push(line);
    line = cutText(word, width, letters);
  }
  if (line !== "") lines.push(line);
  return lines;
}
