/** The drawing as pieces, one or two a part, so that a drag builds anew only what it moves.
 *
 * `compose` looks for a free place for every label, dimension and for the scale bar. That is most of its work, and
 * labels that jumped to other free places under the moving hand would be hard to read. So while the hand moves
 * something, `follow` holds each to the place it had, told by its part (`Hold`), leaves out one that comes to lie over
 * another (`covered.ts`) or on a pipe (`onPipes.ts`), and takes over every piece that nothing changed. Both are functions
 * from value to value: `follow(input, before)` gives the nodes of `hold(input, before.placement)`, which builds all of
 * them; only faster. */
import type { Part, PartId } from "../../hydraulics/index.ts";
import type { SceneInput } from "./build.ts";
import { changedParts } from "./changed.ts";
import { coveredLabels } from "./covered.ts";
import { drawDimensions } from "./dimensions.ts";
import { type Drawing, drawingOf } from "./drawing.ts";
import { drawingSlots } from "./drawSlot.ts";
import { blockGradeLine } from "./gradeLine.ts";
import { blockGround } from "./ground.ts";
import { labelsInOrder } from "./labelOrder.ts";
import { type Hold, heldLabel, LabelPlacer, type PlacedLabel } from "./labels.ts";
import type { SceneNode } from "./node.ts";
import { Obstacles } from "./obstacles.ts";
import { labelsOnPipes, type OnPipes } from "./onPipes.ts";
import { haveSameOutline, type Outline, outlineOf, type Slot } from "./outline.ts";
import { outOfDate, sameView } from "./outOfDate.ts";
import { drawingOfKind } from "./parts.ts";
import { sameNode } from "./sameNode.ts";
import { drawScaleBar } from "./scaleBar.ts";
import type { DimensionPlaces } from "./uprightDimension.ts";
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
  readonly outline: Outline;
  /** one a slot of the outline */
  readonly pieces: readonly Piece[];
  readonly placement: Placement;
  /** as they were found by the last search */
  readonly labels: readonly PlacedLabel[];
  /** where they are now, part by part */
  readonly held: HeldLabels;
  readonly onPipes: OnPipes;
  /** keys of those that are left out because another lies there, or a pipe */
  readonly covered: ReadonlySet<string>;
}

type HeldLabels = ReadonlyMap<PartId | null, readonly PlacedLabel[]>;

export const compose = (input: SceneInput): Picture => composeDrawing(drawingOf(input));

export function composeDrawing(drawing: Drawing): Picture {
  const placer = new LabelPlacer(drawing.layout.field, drawing.layout.narrow);
  for (const part of drawing.parts) drawingOfKind(part).block(drawing, part, placer.obstacles);
  for (const rect of stoneOf(drawing)) placer.stone.addRect(rect);
  // Dimension lines may cross the ground line, words may not.
  const dimensions = drawDimensions(drawing, placer.obstacles);
  blockGround(drawing, placer.obstacles);
  if (drawing.input.view.gradeLine) blockGradeLine(drawing, placer.obstacles);
  const scaleBar = drawScaleBar(drawing, placer.obstacles);
  for (const request of labelsInOrder(drawing)) placer.place(request);
  const held = new Map<PartId | null, PlacedLabel[]>();
  for (const label of placer.placed) {
    const list = held.get(label.part);
    if (list) list.push(label);
    else held.set(label.part, [label]);
  }
  const draw = drawingSlots(drawing, {
    dimensions: () => dimensions.nodes,
    scaleBar: () => scaleBar.nodes,
    labelsOf: (id) => held.get(id)?.flatMap(({ nodes }) => nodes) ?? [],
  });
  const outline = outlineOf(drawing);
  return {
    drawing,
    outline,
    pieces: outline.slots.map((slot) => pieceIn(slot, draw(slot))),
    held,
    onPipes: labelsOnPipes(drawing, placer.placed, null),
    covered: new Set(),
    placement: {
      labels: new Map(placer.placed.map((label) => [label.key, label.hold])),
      dimensions: dimensions.places,
      scaleBar: scaleBar.place,
    },
    labels: placer.placed,
  };
}

const pieceIn = ({ key, parts }: Slot, nodes: readonly SceneNode[]): Piece => ({ key, parts, nodes });

/** The same places with another drawing in them. */
export const hold = (input: SceneInput, placement: Placement): Picture =>
  holdTo(drawingOf(input), { placement, labels: [] }, null);

/** `hold` with the places of the picture before, made of its pieces where they are still right. */
export const follow = (input: SceneInput, before: Picture): Picture => holdTo(drawingOf(input), before, before);

function holdTo(
  drawing: Drawing,
  { placement, labels }: Pick<Picture, "placement" | "labels">,
  before: Picture | null,
): Picture {
  const changed = before && sameView(before.drawing, drawing) ? changedParts(before.drawing, drawing) : null;
  const isSame = before !== null && haveSameOutline(before.drawing, drawing);
  const outline = isSame ? before.outline : outlineOf(drawing);
  const known = isSame && changed ? { changed, held: before.held, was: before.onPipes } : null;
  const held = heldIn(drawing, placement, known);
  const all = [...held.values()].flat();
  const onPipes = labelsOnPipes(drawing, all, known);
  const clear = all.filter(({ key }) => !onPipes.keys.has(key));
  const covered = new Set([...onPipes.keys, ...coveredLabels(clear, placement.labels.keys())]);
  // Nothing is searched, so nothing needs to be kept clear of.
  const nowhere = new Obstacles({ x: 0, y: 0, width: 1, height: 1 });
  const draw = drawingSlots(drawing, {
    dimensions: () => drawDimensions(drawing, nowhere, placement.dimensions).nodes,
    scaleBar: () => drawScaleBar(drawing, nowhere, placement.scaleBar).nodes,
    labelsOf: (id) => held.get(id)?.flatMap(({ key, nodes }) => (covered.has(key) ? [] : nodes)) ?? [],
  });
  const picture = { drawing, outline, placement, labels, held, onPipes, covered };
  if (!before) return { ...picture, pieces: outline.slots.map((slot) => pieceIn(slot, draw(slot))) };

  const isOld = outOfDate(before.drawing, drawing, changed);
  const toggled = new Set<PartId>();
  for (const { key, part } of all) if (part && covered.has(key) !== before.covered.has(key)) toggled.add(part);
  const isOther = (slot: Slot): boolean =>
    isOld(slot) || (slot.draws === "labels" && toggled.has(slot.parts[0] as PartId));
  const redrawn = (slot: Slot, was: Piece | undefined): Piece =>
    was && sameNode(was.parts, slot.parts) && !isOther(slot) ? was : withOldNodes(was, pieceIn(slot, draw(slot)));
  if (isSame && changed) {
    const pieces = [...before.pieces];
    const places = new Set(outline.ofSheet);
    for (const ids of [changed, toggled])
      for (const id of ids) for (const at of outline.of.get(id) ?? []) places.add(at);
    for (const at of places) pieces[at] = redrawn(outline.slots[at] as Slot, pieces[at]);
    return { ...picture, pieces };
  }
  const pieces = new Map(before.pieces.map((piece) => [piece.key, piece]));
  return { ...picture, pieces: outline.slots.map((slot) => redrawn(slot, pieces.get(slot.key))) };
}

/** @param before of a picture with the same outline, and what changed since; null where nothing is known */
function heldIn(
  drawing: Drawing,
  placement: Placement,
  before: { readonly changed: ReadonlySet<PartId>; readonly held: HeldLabels } | null,
): HeldLabels {
  if (!before) return new Map(drawing.parts.map((part) => [part.id, heldLabels(drawing, part, placement)]));
  const held = new Map(before.held);
  for (const id of before.changed) {
    const part = drawing.section.parts.get(id);
    if (part) held.set(id, heldLabels(drawing, part, placement));
  }
  return held;
}

const heldLabels = (drawing: Drawing, part: Part, { labels }: Placement): readonly PlacedLabel[] =>
  drawingOfKind(part)
    .labels(drawing, part)
    .flatMap((request) => {
      const place = labels.get(request.key);
      return (place && heldLabel(request, place)) ?? [];
    });

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

/** All that is drawn of some parts, in the order in which it is painted within a layer. */
export function piecesOf({ outline, pieces }: Picture, ids: Iterable<PartId>): readonly Piece[] {
  const places = new Set([...ids].flatMap((id) => outline.of.get(id) ?? []));
  return [...places].sort((a, b) => a - b).map((at) => pieces[at] as Piece);
}

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
