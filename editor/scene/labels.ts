/** Labels find free places. Each asks with its lines and the spots it would like, best first; the first free one
 * is taken and is from then on an obstacle to all others, its leader too. So no label covers another, a pipe or a
 * leader, and the same drawing gives the same sheet. What has no free spot tries again with fewer words, then is
 * left out: a reading that covers another tells less than none, and the slips and tables hold it too.
 * Whoever asks first is served first: the order of requests is the order of importance. */
import type { PartId } from "../../hydraulics/index.ts";
import type { Rect } from "../sheet/transform.ts";
import { boxAt, grown, leaderOf, measure, type Size } from "./labelBox.ts";
import { type LabelInk, labelNodes } from "./labelNodes.ts";
import type { LabelLine, LabelRequest, Spot } from "./labelRequest.ts";
import type { SceneNode } from "./node.ts";
import { type Mm, Obstacles, overlap, runsThrough } from "./obstacles.ts";

export interface PlacedLabel {
  readonly key: string;
  readonly part: PartId | null;
  readonly box: Rect;
  readonly leader: readonly Mm[];
  readonly nodes: readonly SceneNode[];
  readonly hold: Hold;
}

/** Where a label went, told by its part: which way of saying it, with which words, at which spot. While the part moves
 * the label keeps to it. */
export interface Hold {
  readonly otherwise: boolean;
  readonly variant: number;
  readonly spot: string;
}

/** Free air round a label, mm. */
const clearance = 0.7;
/** Free air over and under a level's shelf, mm: on a pipe it would say how high the pipe lies. */
const shelfAir = 0.9;
/** mm of a leader that may run over its own part's lines, where the request does not say */
const usuallyOwn = 1.2;

export class LabelPlacer {
  readonly obstacles: Obstacles;
  /** where words can stand, but read badly */
  readonly stone: Obstacles;
  /** labels already placed: a leader leaves its own part's lines, but crosses no words, not even where it begins */
  readonly #words: Obstacles;
  /** leaders and shelves of those: one that crossed another could be followed to the wrong end */
  readonly #leaders: Obstacles;
  readonly #crowded: boolean;
  readonly placed: PlacedLabel[] = [];

  /** @param crowded leaves out what could only be said across another's leader */
  constructor(field: Rect, crowded = false) {
    this.#crowded = crowded;
    this.obstacles = new Obstacles(field);
    this.stone = new Obstacles(field);
    this.#words = new Obstacles(field);
    this.#leaders = new Obstacles(field);
  }

  /** Null where nothing is free. A leader that crosses lines, or words on stone, are the last resort but one: fewer words,
   * or another way to say it, go before them. The last is a leader that crosses another. */
  place(request: LabelRequest): PlacedLabel | null {
    const { good, bad, crossing } = this.#search(request);
    if (good) return this.#take(request, good, false);
    const other = request.otherwise && this.#search(request.otherwise).good;
    if (request.otherwise && other) return this.#take(request.otherwise, other, true);
    const last = bad ?? (this.#crowded ? null : crossing);
    return last && !request.modest ? this.#take(request, last, false) : this.#numberAlone(request);
  }

  /** Where no words fit, the number still leads to its row in the parts list. */
  #numberAlone(request: LabelRequest): PlacedLabel | null {
    if (request.number === undefined) return null;
    const size = request.variants.at(-1)?.[0]?.size ?? 0;
    const alone = { ...request, variants: [[{ size, runs: [] }]] };
    const { good, bad, crossing } = this.#search(alone);
    const found = good ?? bad ?? (this.#crowded ? null : crossing);
    return found && this.#take(alone, found, false);
  }

  /** The first good place, the first that is only not covered, and the first whose leader crosses another. */
  #search(request: LabelRequest): Search {
    const sizes = request.variants.map((lines) => measure(lines, request));
    // Where the fewest words do not fit, more will not: the boxes lie in each other.
    const least = {
      width: Math.min(...sizes.map(({ width }) => width)),
      height: Math.min(...sizes.map(({ height }) => height)),
    };
    const isOpen = ({ spot }: Named): boolean => this.obstacles.isFree(boxAt(spot, least), clearance);
    const near = named(request.spots, "").filter(isOpen);
    const others = request.others?.() ?? [];
    // All words off the line on a leader go before fewer words beside it, but are only thought of when needed.
    let open = near;
    let bad: Found | null = null;
    let crossing: Found | null = null;
    for (const [i, lines] of request.variants.entries()) {
      const size = sizes[i] as Size;
      let tried = this.#firstOf(open, i, lines, size, request, others);
      bad ??= tried.bad;
      crossing ??= tried.crossing;
      if (!tried.good && i === 0 && request.further) {
        const away = named(request.further(), far).filter(isOpen);
        open = [...near, ...away];
        tried = this.#firstOf(away, i, lines, size, request, others);
        bad ??= tried.bad;
        crossing ??= tried.crossing;
      }
      if (tried.good) return { good: tried.good, bad, crossing };
    }
    return { good: null, bad, crossing };
  }

  #firstOf(
    spots: readonly Named[],
    variant: number,
    lines: readonly LabelLine[],
    size: Size,
    request: LabelRequest,
    others: readonly Rect[],
  ): Search {
    let bad: Found | null = null;
    let crossing: Found | null = null;
    for (const { spot, name } of spots) {
      const box = boxAt(spot, size);
      if (!this.obstacles.isFree(box, clearance)) continue;
      const leader = leaderOf(spot, box, request.level === true);
      const found: Found = { lines, variant, spot: name, box, leader, backing: spot.backing };
      if (others.some((rect) => overlap(box, rect) || runsThrough(leader, rect))) continue;
      const standing = this.#standing(found, spot, request);
      if (standing === "good") return { good: found, bad, crossing };
      if (standing === "bad") bad ??= found;
      if (standing === "crossing") crossing ??= found;
    }
    return { good: null, bad, crossing };
  }

  #standing({ box, leader }: Found, spot: Spot, request: LabelRequest): "good" | "bad" | "crossing" | "covered" {
    const own = request.own ?? usuallyOwn;
    if (leader.length > 0 && !this.obstacles.isClearLine(leader, false, own)) return "covered";
    if (leader.length > 0 && !this.#words.isClearLine(leader, false, 0)) return "covered";
    if (request.level && !this.obstacles.isClearLine(leader.slice(-2), true, 0, shelfAir)) return "covered";
    if (leader.length > 0 && !this.#leaders.isClearLine(leader, true, 0)) return "crossing";
    if (!this.stone.isFree(box)) return "bad";
    return spot.leadFrom === undefined || this.obstacles.isClearLine(leader, true, own) ? "good" : "bad";
  }

  #take(request: LabelRequest, found: Found, otherwise: boolean): PlacedLabel {
    const { box, leader } = found;
    this.obstacles.addRect(box);
    // A leader that ran along the letters' tops would read as a line through them.
    this.#words.addRect(grown(box, 0.45));
    if (leader.length > 1) this.obstacles.addLine(leader, 0.15);
    if (leader.length > 1 && !request.crossable) this.#leaders.addLine(leader, 0.15);
    const label = labelOf(request, found, otherwise);
    this.placed.push(label);
    return label;
  }
}

const labelOf = (request: LabelRequest, found: Found, otherwise: boolean): PlacedLabel => ({
  key: request.key,
  part: request.part,
  box: found.box,
  leader: found.leader,
  nodes: labelNodes(request, found),
  hold: { otherwise, variant: found.variant, spot: found.spot },
});

/** The label at the spot it had, wherever that is now; null where its part has no such spot any more. Nothing is
 * searched: while a part moves, its words moving with it read better than words that jump to free places. */
export function heldLabel(given: LabelRequest, hold: Hold): PlacedLabel | null {
  const request = hold.otherwise ? given.otherwise : given;
  if (!request) return null;
  const variant = Math.min(hold.variant, request.variants.length - 1);
  const lines = request.variants[variant];
  const spot = hold.spot.startsWith(far)
    ? request.furtherNamed?.(hold.spot.slice(far.length))
    : spotNamed(request.spots, hold.spot);
  if (!lines || !spot) return null;
  const box = boxAt(spot, measure(lines, request));
  const leader = leaderOf(spot, box, request.level === true);
  return labelOf(request, { lines, variant, spot: hold.spot, box, leader, backing: spot.backing }, hold.otherwise);
}

interface Named {
  readonly spot: Spot;
  readonly name: string;
}

/** Opens the names of those further off. */
const far = "far ";
const named = (spots: readonly Spot[], prefix: string): readonly Named[] =>
  spots.map((spot, i) => ({ spot, name: prefix + (spot.name ?? i) }));

function spotNamed(spots: readonly Spot[], name: string): Spot | undefined {
  const numbered = spots[Number(name)];
  return numbered && numbered.name === undefined ? numbered : spots.find((spot) => spot.name === name);
}

interface Search {
  readonly good: Found | null;
  readonly bad: Found | null;
  readonly crossing: Found | null;
}

interface Found extends LabelInk {
  readonly variant: number;
  readonly spot: string;
}
