/** Labels find free places. Each asks with its lines and the spots it would like, best first; the first free one
 * is taken and is from then on an obstacle to all others, its leader too. So no label covers another, a pipe or a
 * leader, and the same drawing gives the same sheet. What has no free spot tries again with fewer words, then is
 * left out: a reading that covers another tells less than none, and the slips and tables hold it too.
 * Whoever asks first is served first: the order of requests is the order of importance. */
import type { PartId } from "../../hydraulics/index.ts";
import type { Rect } from "../sheet/transform.ts";
import { corners } from "./ink.ts";
import type { Role, SceneNode, Weight } from "./node.ts";
import { type Mm, Obstacles } from "./obstacles.ts";
import { levelTriangle } from "./symbols.ts";
import { textWidth } from "./textWidth.ts";

export interface LabelRun {
  readonly text: string;
  readonly weight: Weight;
  readonly fill: Role;
}

export interface LabelLine {
  readonly runs: readonly LabelRun[];
  readonly size: number;
  /** mm between two runs: flow and velocity read as two figures */
  readonly apart?: number;
  /** the widest it may become while the power cut plays, mm: its place does not change then */
  readonly reserve?: number;
}

export interface Spot {
  /** the point that the label hangs on */
  readonly at: Mm;
  /** which way it goes from there: left, centred, right */
  readonly across: -1 | 0 | 1;
  /** above, centred, below */
  readonly down: -1 | 0 | 1;
  /** the point it speaks of, tied by a leader */
  readonly leadFrom?: Mm;
  /** what the letters stand on, where that is hatched */
  readonly backing?: Role;
  /** what it is called when a label is held to it while its part moves; its number in the list where it has no name */
  readonly name?: string;
}

export interface LabelRequest {
  readonly key: string;
  readonly part: PartId | null;
  /** the first is tried at every spot, then the next, shorter one */
  readonly variants: readonly (readonly LabelLine[])[];
  readonly spots: readonly Spot[];
  /** more of them, further off, made only when needed */
  readonly further?: () => readonly Spot[];
  /** a level: a triangle before the words, standing on a line at the level */
  readonly level?: boolean;
  /** another way to say it, before it is said in a bad place */
  readonly otherwise?: LabelRequest;
  /** rather left out than in a bad place */
  readonly modest?: boolean;
  /** mm from the point it speaks of in which its leader may run over that part's own lines */
  readonly own?: number;
  /** number in the parts list, in a ring before the words */
  readonly number?: number;
}

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
const gap = 1.1;
const pitch = 1.2;

export class LabelPlacer {
  readonly obstacles: Obstacles;
  /** where words can stand, but read badly */
  readonly stone: Obstacles;
  /** labels already placed: a leader leaves its own part's lines, but crosses no words, not even where it begins */
  readonly #words: Obstacles;
  readonly placed: PlacedLabel[] = [];

  constructor(field: Rect) {
    this.obstacles = new Obstacles(field);
    this.stone = new Obstacles(field);
    this.#words = new Obstacles(field);
  }

  /** Null where nothing is free. A leader that crosses lines, or words on stone, are the last resort: fewer words,
   * or another way to say it, go before them. */
  place(request: LabelRequest): PlacedLabel | null {
    const { good, bad } = this.#search(request);
    if (good) return this.#take(request, good, false);
    const other = request.otherwise && this.#search(request.otherwise).good;
    if (request.otherwise && other) return this.#take(request.otherwise, other, true);
    return bad && !request.modest ? this.#take(request, bad, false) : this.#numberAlone(request);
  }

  /** Where no words fit, the number still leads to its row in the parts list. */
  #numberAlone(request: LabelRequest): PlacedLabel | null {
    if (request.number === undefined) return null;
    const size = request.variants.at(-1)?.[0]?.size ?? 0;
    const alone = { ...request, variants: [[{ size, runs: [] }]] };
    const { good, bad } = this.#search(alone);
    const found = good ?? bad;
    return found && this.#take(alone, found, false);
  }

  /** The first good place, and the first that is only not covered. */
  #search(request: LabelRequest): Search {
    const sizes = request.variants.map((lines) => measure(lines, request));
    // Where the fewest words do not fit, more will not: the boxes lie in each other.
    const least = {
      width: Math.min(...sizes.map(({ width }) => width)),
      height: Math.min(...sizes.map(({ height }) => height)),
    };
    const isOpen = ({ spot }: Named): boolean => this.obstacles.isFree(boxAt(spot, least), clearance);
    const near = named(request.spots, "").filter(isOpen);
    // All words off the line on a leader go before fewer words beside it, but are only thought of when needed.
    let open = near;
    let bad: Found | null = null;
    for (const [i, lines] of request.variants.entries()) {
      const size = sizes[i] as Size;
      let tried = this.#firstOf(open, i, lines, size, request);
      bad ??= tried.bad;
      if (!tried.good && i === 0 && request.further) {
        const away = named(request.further(), far).filter(isOpen);
        open = [...near, ...away];
        tried = this.#firstOf(away, i, lines, size, request);
        bad ??= tried.bad;
      }
      if (tried.good) return { good: tried.good, bad };
    }
    return { good: null, bad };
  }

  #firstOf(
    spots: readonly Named[],
    variant: number,
    lines: readonly LabelLine[],
    size: Size,
    request: LabelRequest,
  ): Search {
    let bad: Found | null = null;
    for (const { spot, name } of spots) {
      const box = boxAt(spot, size);
      if (!this.obstacles.isFree(box, clearance)) continue;
      const leader = leaderOf(spot, box, request.level === true);
      const found: Found = { lines, variant, spot: name, box, leader, backing: spot.backing };
      const standing = this.#standing(found, spot, request);
      if (standing === "good") return { good: found, bad };
      if (standing === "bad") bad ??= found;
    }
    return { good: null, bad };
  }

  #standing({ box, leader }: Found, spot: Spot, request: LabelRequest): "good" | "bad" | "covered" {
    const own = request.own ?? usuallyOwn;
    if (leader.length > 0 && !this.obstacles.isClearLine(leader, false, own)) return "covered";
    if (leader.length > 0 && !this.#words.isClearLine(leader, false, 0)) return "covered";
    if (!this.stone.isFree(box)) return "bad";
    return spot.leadFrom === undefined || this.obstacles.isClearLine(leader, true, own) ? "good" : "bad";
  }

  #take(request: LabelRequest, found: Found, otherwise: boolean): PlacedLabel {
    const { box, leader } = found;
    this.obstacles.addRect(box);
    // A leader that ran along the letters' tops would read as a line through them.
    this.#words.addRect(grown(box, 0.45));
    if (leader.length > 1) this.obstacles.addLine(leader, 0.15);
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
  nodes: nodesOf(request, found),
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
    ? request.further && spotNamed(request.further(), hold.spot.slice(far.length))
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

interface Size {
  readonly width: number;
  readonly height: number;
}

interface Search {
  readonly good: Found | null;
  readonly bad: Found | null;
}

interface Found {
  readonly lines: readonly LabelLine[];
  readonly variant: number;
  readonly spot: string;
  readonly box: Rect;
  readonly leader: readonly Mm[];
  readonly backing: Role | undefined;
}

const grown = ({ x, y, width, height }: Rect, by: number): Rect => ({
  x: x - by,
  y: y - by,
  width: width + 2 * by,
  height: height + 2 * by,
});

const usuallyOwn = 1.2;
const levelMarkWidth = 4.1;
const apartUsually = 2.2;
export const lineWidth = ({ runs, size, reserve, apart = apartUsually }: LabelLine): number =>
  Math.max(
    runs.reduce((sum, run) => sum + textWidth(run.text, size, run.weight), 0) + apart * (runs.length - 1),
    reserve ?? 0,
  );

const markWidth = (request: LabelRequest): number =>
  (request.level ? levelMarkWidth : 0) + (request.number === undefined ? 0 : 4.6);

function measure(lines: readonly LabelLine[], request: LabelRequest): Size {
  const widest = Math.max(...lines.map(lineWidth), 0);
  const first = lines[0]?.size ?? 0;
  const last = lines.at(-1)?.size ?? 0;
  const steps = lines.slice(1).reduce((sum, line) => sum + line.size * pitch, 0);
  // From the first line's capitals to the last line's descenders.
  return { width: widest + markWidth(request), height: 0.72 * first + steps + 0.22 * last };
}

function boxAt({ at, across, down }: Spot, { width, height }: Size): Rect {
  return {
    x: across === 1 ? at[0] + gap : across === 0 ? at[0] - width / 2 : at[0] - gap - width,
    y: down === 1 ? at[1] + gap : down === 0 ? at[1] - height / 2 : at[1] - gap - height,
    width,
    height,
  };
}

/** From the point to the label's nearest side, or under a level as its shelf. */
function leaderOf({ at, across, leadFrom }: Spot, box: Rect, level: boolean): readonly Mm[] {
  if (level) {
    const shelfEnd: Mm = [across === -1 ? box.x : box.x + box.width, at[1]];
    return leadFrom ? [leadFrom, at, shelfEnd] : [at, shelfEnd];
  }
  if (!leadFrom) return [];
  const x = Math.min(Math.max(leadFrom[0], box.x), box.x + box.width);
  const y = Math.min(Math.max(leadFrom[1], box.y), box.y + box.height);
  // Ends a little short of the letters.
  const away = Math.hypot(leadFrom[0] - x, leadFrom[1] - y);
  if (away < 2) return [];
  const back = 0.6 / away;
  return [leadFrom, [x + (leadFrom[0] - x) * back, y + (leadFrom[1] - y) * back]];
}

function nodesOf(request: LabelRequest, { lines, box, leader, backing }: Found): readonly SceneNode[] {
  const base = { part: request.part, space: "paper", layer: "labels" } as const;
  const nodes: SceneNode[] = [];
  if (backing)
    nodes.push({
      ...base,
      key: `${request.key} backing`,
      shape: "line",
      points: corners(grown(box, 0.5)),
      closed: true,
      stroke: "none",
      fill: backing,
      pen: "hair",
      opacity: 0.85,
    });
  if (leader.length > 1)
    nodes.push({
      ...base,
      key: `${request.key} leader`,
      shape: "line",
      points: leader,
      stroke: request.level ? "ink" : "soft",
      pen: request.level ? "dimension" : "hair",
    });
  if (!request.level && leader.length > 1)
    nodes.push({
      ...base,
      key: `${request.key} dot`,
      shape: "circle",
      at: leader[0] as Mm,
      radius: 0.45,
      stroke: "none",
      fill: "soft",
      pen: "hair",
    });
  let x = box.x;
  const first = lines[0]?.size ?? 0;
  if (request.level) {
    const foot = leader.at(-1)?.[1] ?? box.y + box.height;
    nodes.push({
      ...base,
      key: `${request.key} mark`,
      shape: "path",
      at: [box.x + 1.5, foot],
      data: levelTriangle,
      stroke: "ink",
      fill: "sheet",
      pen: "dimension",
    });
    x += levelMarkWidth;
  }
  if (request.number !== undefined) {
    const at: Mm = [x + 1.9, box.y + 0.36 * first];
    const text = String(request.number);
    nodes.push({
      ...base,
      key: `${request.key} ring`,
      shape: "circle",
      at,
      radius: 2,
      stroke: "ink",
      fill: "sheet",
      pen: "dimension",
    });
    nodes.push({
      ...base,
      key: `${request.key} number`,
      shape: "text",
      at: [at[0], at[1] + 0.95],
      text,
      anchor: "middle",
      size: 2.7,
      weight: 500,
      fill: "ink",
    });
    x += 4.6;
  }
  let y = box.y;
  lines.forEach((line, i) => {
    y += i === 0 ? 0.72 * line.size : line.size * pitch;
    let left = x;
    line.runs.forEach((run, j) => {
      nodes.push({
        ...base,
        key: `${request.key} ${i}.${j}`,
        shape: "text",
        at: [left, y],
        text: run.text,
        anchor: "start",
        size: line.size,
        weight: run.weight,
        fill: run.fill,
      });
      left += textWidth(run.text, line.size, run.weight) + (line.apart ?? apartUsually);
    });
  });
  return nodes;
}
