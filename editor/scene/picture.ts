/** The drawing as pieces, one or two a part, so that a drag builds anew only what it moves.
 *
 * `compose` looks for a free place for every label, dimension and for the scale bar. That is most of its work, and
 * labels that jumped to other free places under the moving hand would be hard to read. So while the hand moves
 * something, `follow` holds each to the place it had, told by its part (`Hold`), leaves out one that comes to lie over
 * another (`covered.ts`), and takes over every piece that nothing changed. Both are functions from value to value:
 * `follow(input, before)` gives the nodes of `hold(input, before.placement)`, which builds all of them; only faster. */
import { type Body, otherParts, type Part, type PartId, type Pipe } from "../../hydraulics/index.ts";
import type { SceneInput } from "./build.ts";
import { changedParts } from "./changed.ts";
import { coveredLabels } from "./covered.ts";
import { type DimensionPlaces, drawDimensions } from "./dimensions.ts";
import { type Drawing, drawingOf } from "./drawing.ts";
import { drawFrame, drawPaper } from "./frame.ts";
import { blockGradeLine, drawGradeLine } from "./gradeLine.ts";
import { blockGround, drawGround, drawPlinth, sunkBodies } from "./ground.ts";
import { joinedPipes } from "./joinedPipes.ts";
import { labelsInOrder } from "./labelOrder.ts";
import { type Hold, heldLabel, LabelPlacer, type PlacedLabel } from "./labels.ts";
import type { SceneNode } from "./node.ts";
import { Obstacles } from "./obstacles.ts";
import { drawPartedMark } from "./partedMark.ts";
import { drawingOfKind } from "./parts.ts";
import { pipeContent, pipeWalls } from "./pipe.ts";
import { drawRuler } from "./ruler.ts";
import { sameNode } from "./sameNode.ts";
import { drawScaleBar } from "./scaleBar.ts";
import { drawStrip } from "./strip.ts";
import { drawTitleBlock } from "./titleBlock.ts";
import { stoneOf } from "./vessel.ts";

export interface Piece {
  /** stable across pictures; unique in one */
  readonly key: string;
  /** whose it is; none where it is the sheet's */
  readonly parts: readonly PartId[];
  readonly nodes: readonly SceneNode[];
}

/** Where everything went that had to look for a place. */
export interface Placement {
  readonly labels: ReadonlyMap<string, Hold>;
  readonly dimensions: DimensionPlaces;
  readonly scaleBar: number | null;
}

export interface Picture {
  readonly drawing: Drawing;
  /** in the order in which they are painted within a layer */
  readonly pieces: readonly Piece[];
  readonly placement: Placement;
  /** as they were found by the last search */
  readonly labels: readonly PlacedLabel[];
  /** where they are now, part by part */
  readonly held: HeldLabels;
  /** keys of those that are left out because another lies there */
  readonly covered: ReadonlySet<string>;
}

type HeldLabels = ReadonlyMap<PartId | null, readonly PlacedLabel[]>;

export const compose = (input: SceneInput): Picture => composeDrawing(drawingOf(input));

export function composeDrawing(drawing: Drawing): Picture {
  const placer = new LabelPlacer(drawing.layout.field);
  for (const part of drawing.parts) drawingOfKind(part).block(drawing, part, placer.obstacles);
  for (const rect of stoneOf(drawing)) placer.stone.addRect(rect);
  // Dimension lines may cross the ground line, words may not.
  const dimensions = drawDimensions(drawing, placer.obstacles);
  blockGround(drawing, placer.obstacles);
  if (drawing.input.view.gradeLine) blockGradeLine(drawing, placer.obstacles);
  const scaleBar = drawScaleBar(drawing, placer.obstacles);
  for (const request of labelsInOrder(drawing)) placer.place(request);
  const byPart = new Map<PartId | null, PlacedLabel[]>();
  for (const label of placer.placed) {
    const list = byPart.get(label.part);
    if (list) list.push(label);
    else byPart.set(label.part, [label]);
  }
  const fresh: Reuse = { part: (key, parts, make) => ({ key, parts, nodes: make() }), sheet: sheetPiece };
  return {
    drawing,
    pieces: piecesOf(drawing, fresh, {
      ground: fresh.part,
      dimensions: dimensions.nodes,
      scaleBar: scaleBar.nodes,
      labels: fresh.part,
      labelsOf: (id) => byPart.get(id) ?? [],
    }),
    held: byPart,
    covered: new Set(),
    placement: {
      labels: new Map(placer.placed.map((label) => [label.key, label.hold])),
      dimensions: dimensions.places,
      scaleBar: scaleBar.place,
    },
    labels: placer.placed,
  };
}

/** The same places with another drawing in them. */
export const hold = (input: SceneInput, placement: Placement): Picture =>
  draw(drawingOf(input), { placement, labels: [] }, null);

/** `hold` with the places of the picture before, made of its pieces where they are still right. */
export const follow = (input: SceneInput, before: Picture): Picture => draw(drawingOf(input), before, before);

function draw(
  drawing: Drawing,
  { placement, labels }: Pick<Picture, "placement" | "labels">,
  before: Picture | null,
): Picture {
  // Nothing is searched, so nothing needs to be kept clear of.
  const nowhere = new Obstacles({ x: 0, y: 0, width: 1, height: 1 });
  const reuse = reuseOf(drawing, before);
  const ground = before && sameGround(before.drawing, drawing) ? reuse.part : reuse.anew;
  const held = new Map(
    drawing.parts.map((part): [PartId, readonly PlacedLabel[]] => [
      part.id,
      (reuse.isOld(part.id) && before?.held.get(part.id)) || heldLabels(drawing, part, placement),
    ]),
  );
  const covered = coveredLabels([...held.values()].flat(), placement.labels.keys());
  return {
    drawing,
    placement,
    labels,
    held,
    covered,
    pieces: piecesOf(drawing, reuse, {
      ground,
      dimensions: drawDimensions(drawing, nowhere, placement.dimensions).nodes,
      scaleBar: drawScaleBar(drawing, nowhere, placement.scaleBar).nodes,
      labels: (key, [id, ...rest], make) => {
        const seen = id && held.get(id)?.every((label) => covered.has(label.key) === before?.covered.has(label.key));
        return (seen ? reuse.part : reuse.anew)(key, id ? [id, ...rest] : rest, make);
      },
      labelsOf: (id) => held.get(id)?.filter(({ key }) => !covered.has(key)) ?? [],
    }),
  };
}

const heldLabels = (drawing: Drawing, part: Part, { labels }: Placement): readonly PlacedLabel[] =>
  drawingOfKind(part)
    .labels(drawing, part)
    .flatMap((request) => {
      const place = labels.get(request.key);
      return (place && heldLabel(request, place)) ?? [];
    });

type MakePiece = (key: string, parts: readonly PartId[], make: () => readonly SceneNode[]) => Piece;

interface Reuse {
  readonly part: MakePiece;
  readonly sheet: (key: string, make: () => readonly SceneNode[], isSame?: IsSame) => Piece;
}

/** Whether a sheet's piece that was drawn for the one need not be drawn anew for the other. */
type IsSame = (before: Drawing, now: Drawing) => boolean;

const sheetPiece = (key: string, make: () => readonly SceneNode[]): Piece => ({ key, parts: [], nodes: make() });

interface ReuseOrNot extends Reuse {
  readonly anew: MakePiece;
  /** everything drawn of the part is as it was */
  isOld(id: PartId): boolean;
}

/** The piece before where the new one paints the same, else the new one with every node of before that is still right. */
function withOldNodes(was: Piece | undefined, now: Piece): Piece {
  if (!was) return now;
  let isSame = was.nodes.length === now.nodes.length && sameNode(was.parts, now.parts);
  const nodes = now.nodes.map((node, i) => {
    const old = was.nodes[i];
    if (old && sameNode(old, node)) return old;
    isSame = false;
    return node;
  });
  return isSame ? was : { ...now, nodes };
}

function reuseOf(drawing: Drawing, before: Picture | null): ReuseOrNot {
  if (!before) {
    const fresh: MakePiece = (key, parts, make) => ({ key, parts, nodes: make() });
    return { part: fresh, sheet: sheetPiece, anew: fresh, isOld: () => false };
  }
  const known = new Map(before.pieces.map((piece) => [piece.key, piece]));
  const anew: MakePiece = (key, parts, make) => withOldNodes(known.get(key), { key, parts, nodes: make() });
  const changed = sameView(before.drawing, drawing) ? changedParts(before.drawing, drawing) : null;
  return {
    anew,
    isOld: (id) => changed !== null && !changed.has(id),
    part: (key, parts, make) => {
      const was = known.get(key);
      return was && changed && sameNode(was.parts, parts) && !parts.some((id) => changed.has(id))
        ? was
        : anew(key, parts, make);
    },
    // Few nodes that look at the whole drawing: built every time and compared, but those that can tell before.
    sheet: (key, make, isSame) => {
      const was = known.get(key);
      if (was && isSame?.(before.drawing, drawing)) return was;
      return withOldNodes(was, sheetPiece(key, make));
    },
  };
}

/** Whether every part that is the same is drawn the same. */
function sameView(a: Drawing, b: Drawing): boolean {
  const { numbers: numbersA, ...viewA } = a.input.view;
  const { numbers: numbersB, ...viewB } = b.input.view;
  // In the running state no part looks at the power cut: its answers come in mid drag and move nothing.
  const samePlay =
    a.moment === null && b.moment === null
      ? true
      : a.input.powerCut === b.input.powerCut && a.input.played === b.input.played && a.moment === b.moment;
  return samePlay && numbersA === numbersB && sameNode(viewA, viewB) && sameNode(a.site, b.site);
}

function sameGround(a: Drawing, b: Drawing): boolean {
  const [was, is] = [sunkBodies(a), sunkBodies(b)];
  return was.length === is.length && was.every((body, i) => body === is[i]);
}

/** The strip shows a run in time and names: where the parts stand is nothing to it. */
function sameStrip(a: Drawing, b: Drawing): boolean {
  if (
    a.input.powerCut !== b.input.powerCut ||
    a.input.played !== b.input.played ||
    a.moment !== b.moment ||
    (a.running === null) !== (b.running === null) ||
    a.system !== b.system ||
    a.input.view.isoMargins !== b.input.view.isoMargins ||
    a.section.title !== b.section.title ||
    !sameNode(a.layout, b.layout)
  )
    return false;
  for (const id of otherParts(a.section, b.section)) {
    const [was, is] = [a.section.parts.get(id), b.section.parts.get(id)];
    if (!was || !is || was.label !== is.label) return false;
  }
  return true;
}

interface Parts {
  readonly ground: MakePiece;
  readonly dimensions: readonly SceneNode[];
  readonly scaleBar: readonly SceneNode[];
  readonly labels: MakePiece;
  readonly labelsOf: (id: PartId) => readonly PlacedLabel[];
}

/** What belongs to no part and asks for the view alone stays while that does. Empty ones are pieces too: that there is nothing to draw need not be found out again in each frame. */
function piecesOf(drawing: Drawing, { part, sheet }: Reuse, found: Parts): readonly Piece[] {
  const { parts } = drawing;
  let ground: ReturnType<typeof drawGround> | undefined;
  const cut = () => {
    ground ??= drawGround(drawing);
    return ground;
  };
  const pipes = parts.filter((one): one is Pipe => one.kind === "pipe");
  const bodies = parts.filter((one): one is Body => one.kind === "pond" || one.kind === "vessel");
  return [
    part("sheet paper", [], () => [drawPaper(drawing)]),
    found.ground("sheet earth", [], () => cut().earth),
    ...bodies.map((body) => part(`plinth ${body.id}`, [body.id], () => drawPlinth(drawing, body))),
    found.ground("sheet ground", [], () => cut().line),
    ...parts.flatMap((one) =>
      one.kind === "pipe" ? [] : [part(`part ${one.id}`, [one.id], () => drawingOfKind(one).draw(drawing, one))],
    ),
    ...joinedPipes(pipes).map((group) =>
      part(
        `pipes ${(group[0] as Pipe).id}`,
        group.map(({ id }) => id),
        () => drawPipes(drawing, group),
      ),
    ),
    sheet("sheet grade line", () => (drawing.input.view.gradeLine ? drawGradeLine(drawing) : [])),
    sheet("sheet dimensions", () => found.dimensions),
    ...parts.map(({ id }) =>
      found.labels(`labels ${id}`, [id], () => found.labelsOf(id).flatMap(({ nodes }) => nodes)),
    ),
    sheet("sheet scale", () => found.scaleBar),
    part("sheet ruler", [], () => drawRuler(drawing)),
    sheet("sheet parted mark", () => drawPartedMark(drawing)),
    part("sheet frame", [], () => drawFrame(drawing)),
    sheet("sheet strip", () => drawStrip(drawing), sameStrip),
    sheet("sheet title", () => drawTitleBlock(drawing)),
  ];
}

/** Pipes that tee into each other as one: all walls, then all that is in them, so that joints are open. Others one
 * after the other, so that crossings stay crossings. */
const drawPipes = (drawing: Drawing, group: readonly Pipe[]): readonly SceneNode[] => [
  ...group.flatMap((pipe) => pipeWalls(drawing, pipe)),
  ...group.flatMap((pipe) => pipeContent(drawing, pipe)),
];

/** What belongs to a window or a hand-out, not to the section. */
const outside: ReadonlySet<string> = new Set([
  "sheet paper",
  "sheet parted mark",
  "sheet frame",
  "sheet strip",
  "sheet title",
]);

export const isOfSection = ({ key }: Piece): boolean => !outside.has(key);

const flat = new WeakMap<Picture, readonly SceneNode[]>();

export function nodesOf(picture: Picture): readonly SceneNode[] {
  let nodes = flat.get(picture);
  if (!nodes) {
    nodes = picture.pieces.flatMap((piece) => piece.nodes);
    flat.set(picture, nodes);
  }
  return nodes;
}
