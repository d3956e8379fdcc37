/** What labels have to keep clear of, in millimetres of paper, found quickly by a grid of squares. */
import type { Rect } from "../sheet/transform.ts";

export type Mm = readonly [x: number, y: number];

/** A line with half its width; labels keep off it. */
interface Bar {
  readonly a: Mm;
  readonly b: Mm;
  readonly half: number;
}

type Thing = { readonly rect: Rect; readonly bar: null } | { readonly rect: null; readonly bar: Bar };

const square = 12;

export class Obstacles {
  readonly #field: Rect;
  readonly #columns: number;
  readonly #rows: number;
  readonly #squares: Thing[][];

  constructor(field: Rect) {
    this.#field = field;
    this.#columns = Math.max(1, Math.ceil(field.width / square));
    this.#rows = Math.max(1, Math.ceil(field.height / square));
    this.#squares = Array.from({ length: this.#columns * this.#rows }, () => []);
  }

  addRect(rect: Rect): void {
    this.#add({ rect, bar: null }, rect);
  }

  /** A polyline; `half` is half its width. */
  addLine(points: readonly Mm[], half: number): void {
    for (let i = 1; i < points.length; i++) {
      const bar: Bar = { a: points[i - 1] as Mm, b: points[i] as Mm, half };
      this.#add({ rect: null, bar }, boxOf(bar));
    }
  }

  /** Whether the rectangle lies inside the field and touches nothing. */
  isFree(rect: Rect): boolean {
    const { x, y, width, height } = this.#field;
    if (rect.x < x || rect.y < y || rect.x + rect.width > x + width || rect.y + rect.height > y + height) return false;
    return !this.#some(rect, (thing) => (thing.rect ? overlap(rect, thing.rect) : touches(rect, thing.bar)));
  }

  /** Whether a leader is clear of labels and of the symbols (other lines it may cross). */
  isClearLine(points: readonly Mm[]): boolean {
    for (let i = 1; i < points.length; i++) {
      const bar: Bar = { a: points[i - 1] as Mm, b: points[i] as Mm, half: 0.2 };
      if (this.#some(boxOf(bar), (thing) => thing.rect !== null && touches(thing.rect, bar))) return false;
    }
    return true;
  }

  #add(thing: Thing, box: Rect): void {
    const range = this.#range(box);
    if (!range) return;
    for (let row = range.top; row <= range.bottom; row++) {
      for (let column = range.left; column <= range.right; column++) {
        this.#squares[row * this.#columns + column]?.push(thing);
      }
    }
  }

  #some(box: Rect, test: (thing: Thing) => boolean): boolean {
    const range = this.#range(box);
    if (!range) return false;
    for (let row = range.top; row <= range.bottom; row++) {
      for (let column = range.left; column <= range.right; column++) {
        for (const thing of this.#squares[row * this.#columns + column] ?? []) if (test(thing)) return true;
      }
    }
    return false;
  }

  #range(box: Rect): { left: number; right: number; top: number; bottom: number } | null {
    const left = Math.max(0, Math.floor((box.x - this.#field.x) / square));
    const right = Math.min(this.#columns - 1, Math.floor((box.x + box.width - this.#field.x) / square));
    const top = Math.max(0, Math.floor((box.y - this.#field.y) / square));
    const bottom = Math.min(this.#rows - 1, Math.floor((box.y + box.height - this.#field.y) / square));
    return left <= right && top <= bottom ? { left, right, top, bottom } : null;
  }
}

const boxOf = ({ a, b, half }: Bar): Rect => ({
  x: Math.min(a[0], b[0]) - half,
  y: Math.min(a[1], b[1]) - half,
  width: Math.abs(a[0] - b[0]) + 2 * half,
  height: Math.abs(a[1] - b[1]) + 2 * half,
});

export const overlap = (a: Rect, b: Rect): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Whether a line with its width meets a rectangle: the line against the rectangle grown by half the width. */
function touches(rect: Rect, { a, b, half }: Bar): boolean {
  let from = 0;
  let to = 1;
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  for (const [start, run, low, high] of [
    [a[0], dx, rect.x - half, rect.x + rect.width + half],
    [a[1], dy, rect.y - half, rect.y + rect.height + half],
  ] as const) {
    if (Math.abs(run) < 1e-9) {
      if (start <= low || start >= high) return false;
      continue;
    }
    const t1 = (low - start) / run;
    const t2 = (high - start) / run;
    from = Math.max(from, Math.min(t1, t2));
    to = Math.min(to, Math.max(t1, t2));
    if (from >= to) return false;
  }
  return true;
}
