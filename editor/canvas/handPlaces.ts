/** Where the words beside the hand stand: the tag with its figures, and the names of what it snapped to, which lie
 * neither under the tag nor under the pointer nor over the field's edge. In px of the window. */
import type { Weight } from "../scene/node.ts";
import { textWidth } from "../scene/textWidth.ts";
import type { Rect } from "../sheet/transform.ts";
import type { Px } from "./projection.ts";

export interface TagLine {
  readonly text: string;
  readonly size: number;
  readonly weight: Weight;
}

/** As `.tag` in sheet.css: lines, and what padding and border add. */
const tagLine = 17;
const tagEdge = { x: 18, y: 6 };
/** Figures of one width take a little more than the measured ones. */
const figuresWider = 4;
/** from the pointer */
const tagOff = { x: 18, y: 16 };
const windowEdge = 6;

/** Right below the pointer; where the window ends, as far to the left as it takes, and over the pointer. */
export function tagPlace(
  lines: readonly TagLine[],
  [x, y]: Px,
  { width, height }: { readonly width: number; readonly height: number },
): Rect {
  const wide =
    Math.max(...lines.map((line) => textWidth(line.text, line.size, line.weight))) + figuresWider + tagEdge.x;
  const high = lines.length * tagLine + tagEdge.y;
  const below = y + tagOff.y;
  return {
    x: Math.max(Math.min(x + tagOff.x, width - wide - windowEdge), windowEdge),
    y: below + high > height - windowEdge ? y - tagOff.y - high : below,
    width: wide,
    height: high,
  };
}

export interface GuideWord {
  readonly axis: "x" | "z";
  /** where its line is: px from the left of an upright one, from above of a level one */
  readonly line: number;
  readonly name: string;
}

export const guideLetters = { size: 11.5, weight: 500 } as const;
/** px round the letters, on paper of their own */
const pad = { x: 4, y: 2 };
const wordHigh = 12 + 2 * pad.y;
/** How far from the pointer it reads best, off most of what is held; and how near it may come. */
const usual = { right: 265, up: 227 };
const near = 12;
/** px about the pointer that the hand wants to see */
const atPointer = 14;

/** A box a word, in their order. */
export function guidePlaces(words: readonly GuideWord[], at: Px, tag: Rect | null, field: Rect): readonly Rect[] {
  const pointer = { x: at[0] - atPointer, y: at[1] - atPointer, width: 2 * atPointer, height: 2 * atPointer };
  const taken = tag ? [pointer, tag] : [pointer];
  return words.map((word) => {
    const place = placeOf(word, at, tag ?? pointer, field, taken);
    taken.push(place);
    return place;
  });
}

function placeOf(word: GuideWord, at: Px, tag: Rect, field: Rect, taken: readonly Rect[]): Rect {
  const width = textWidth(word.name, guideLetters.size, guideLetters.weight) + 2 * pad.x;
  const right = field.x + field.width - width - near;
  const low = field.y + field.height - wordHigh - near;
  // Beside what has its place already; in a small field that may be all that is left.
  const asides = taken.flatMap((other) => [other.x + other.width + 2, other.x - 2 - width]);
  const rows = taken.flatMap((other) => [other.y - 2 - wordHigh, other.y + other.height + 2]);
  const isLevel = word.axis === "z";
  // At either side of its line, along it the usual place first.
  const across = isLevel
    ? [word.line - 2 - wordHigh, word.line + 2, ...rows]
    : [word.line + 2, word.line - 2 - width, ...asides];
  const along = isLevel
    ? [at[0] + usual.right, tag.x + tag.width + near, tag.x - near - width, field.x + near, right, ...asides]
    : [at[1] - usual.up, tag.y - near - wordHigh, tag.y + tag.height + near, field.y + near, low, ...rows];
  let best: { readonly place: Rect; readonly under: number } | null = null;
  for (const off of across)
    for (const on of along) {
      const place = {
        x: between(isLevel ? on : off, field.x + near, right),
        y: between(isLevel ? off : on, field.y + near, low),
        width,
        height: wordHigh,
      };
      const under = taken.reduce((sum, other) => sum + shared(place, other), 0);
      if (under === 0) return place;
      if (!best || under < best.under) best = { place, under };
    }
  return (best as { readonly place: Rect }).place;
}

const between = (value: number, least: number, most: number): number => Math.max(Math.min(value, most), least);

const shared = (a: Rect, b: Rect): number =>
  Math.max(0, Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x)) *
  Math.max(0, Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y));
