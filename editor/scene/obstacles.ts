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

  /** Whether the rectangle lies inside the field and touches nothing; nor comes nearer than `air` to anything. */
  isFree(given: Rect, air = 0): boolean {
    const { x, y, width, height } = this.#field;
    const rect =
      air === 0
        ? given
        : { x: given.x - air, y: given.y - air, width: given.width + 2 * air, height: given.height + 2 * air };
    if (rect.x < x || rect.y < y || rect.x + rect.width > x + width || rect.y + rect.height > y + height) return false;
    return !this.#hits(rect, false, null);
  }

  /** Whether a leader is clear of labels and symbols, and `ofLines` too; but for its first `own` mm, where it leaves
   * the part that it speaks of. `half` is half its width, with the air beside it. */
  isClearLine(points: readonly Mm[], ofLines: boolean, own: number, half = 0.2): boolean {
    const rest = shortened(points, own);
    for (let i = 1; i < rest.length; i++) {
      const bar: Bar = { a: rest[i - 1] as Mm, b: rest[i] as Mm, half };
      if (this.#hits(boxOf(bar), !ofLines, bar)) return false;
    }
    return true;
  }

  /** What lies outside the field is kept in its nearest squares: it can still be met by what reaches out there. */
  #add(thing: Thing, box: Rect): void {
    const right = this.#column(box.x + box.width);
    const bottom = this.#row(box.y + box.height);
    for (let row = this.#row(box.y); row <= bottom; row++) {
      for (let column = this.#column(box.x); column <= right; column++) {
        this.#squares[row * this.#columns + column]?.push(thing);
      }
    }
  }

  #hits(box: Rect, rectsOnly: boolean, bar: Bar | null): boolean {
    const left = this.#column(box.x);
    const right = this.#column(box.x + box.width);
    const top = this.#row(box.y);
    const bottom = this.#row(box.y + box.height);
    for (let row = top; row <= bottom; row++) {
      for (let column = left; column <= right; column++) {
        const things = this.#squares[row * this.#columns + column] as Thing[];
        for (let i = 0; i < things.length; i++) {
          const thing = things[i] as Thing;
          if (thing.rect !== null) {
            if (bar ? touches(thing.rect, bar) : overlap(box, thing.rect)) return true;
          } else if (!rectsOnly && (bar ? cross(bar, thing.bar) : touches(box, thing.bar))) return true;
        }
      }
    }
    return false;
  }

  #column(x: number): number {
    return Math.min(Math.max(Math.floor((x - this.#field.x) / square), 0), this.#columns - 1);
  }

  #row(y: number): number {
    return Math.min(Math.max(Math.floor((y - this.#field.y) / square), 0), this.#rows - 1);
  }
}

/** The line without its first `own` mm. */
function shortened(points: readonly Mm[], own: number): readonly Mm[] {
  const [a, b, ...rest] = points;
  if (!a || !b) return [];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length <= own) return [b, ...rest];
  return [[a[0] + ((b[0] - a[0]) * own) / length, a[1] + ((b[1] - a[1]) * own) / length], b, ...rest];
}

/** Whether two lines cross, or one runs within the other's width. */
function cross(p: Bar, q: Bar): boolean {
  const near = p.half + q.half;
  if (distanceTo(p.a, q) < near || distanceTo(p.b, q) < near || distanceTo(q.a, p) < near || distanceTo(q.b, p) < near)
    return true;
  return side(q, p.a) * side(q, p.b) < 0 && side(p, q.a) * side(p, q.b) < 0;
}

const side = ({ a, b }: Bar, [x, y]: Mm): number => (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]);

function distanceTo([x, y]: Mm, { a, b }: Bar): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const length = dx * dx + dy * dy;
  const share = length === 0 ? 0 : Math.min(1, Math.max(0, ((x - a[0]) * dx + (y - a[1]) * dy) / length));
  return Math.hypot(a[0] + share * dx - x, a[1] + share * dy - y);
}

const boxOf = ({ a, b, half }: Bar): Rect => ({
  x: Math.min(a[0], b[0]) - half,
  y: Math.min(a[1], b[1]) - half,
  width: Math.abs(a[0] - b[0]) + 2 * half,
  height: Math.abs(a[1] - b[1]) + 2 * half,
});

export const overlap = (a: Rect, b: Rect): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Whether a polyline runs through a rectangle; `half` is half its width. */
export const runsThrough = (points: readonly Mm[], rect: Rect, half = 0): boolean =>
  points.some((b, i) => i > 0 && touches(rect, { a: points[i - 1] as Mm, b, half }));

/** Whether a line with its width meets a rectangle: the line against the rectangle grown by half the width. The
 * innermost loop of the search for free places, so it makes nothing. */
function touches(rect: Rect, { a, b, half }: Bar): boolean {
  const left = rect.x - half;
  const right = rect.x + rect.width + half;
  const top = rect.y - half;
  const bottom = rect.y + rect.height + half;
  const ax = a[0];
  const ay = a[1];
  const bx = b[0];
  const by = b[1];
  if (Math.max(ax, bx) <= left || Math.min(ax, bx) >= right) return false;
  if (Math.max(ay, by) <= top || Math.min(ay, by) >= bottom) return false;
  const dx = bx - ax;
  const dy = by - ay;
  // Level, upright, or with an end inside: the boxes meet, and that is all there is to know.
  if (dx === 0 || dy === 0) return true;
  // A sloping line misses where all four corners lie on one side of it.
  const side = dy * left - dx * top;
  const at = dy * ax - dx * ay;
  const width = dy * (right - left);
  const height = dx * (bottom - top);
  const first = side - at;
  const above = first > 0;
  return first + width > 0 !== above || first - height > 0 !== above || first + width - height > 0 !== above;
}
