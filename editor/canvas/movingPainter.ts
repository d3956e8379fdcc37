/** All of a picture while something of it moves: a still canvas with what rests, painted once, and small windows over it
 * in which what moves is put together anew of what rests below, what moves, what rests over it, and what moves over that
 * (`windows.ts`); frame, ruler, strip and title block lie over all. Only windows in which something changed are painted.
 *
 * Each canvas that is drawn on costs a copy of all its pixels in each frame in which anything on the page changes: hence
 * small windows, and a still one that is given its pixels as an image. To get a canvas's pixels at all takes the browser
 * as long as several frames, so those of one drag are kept for the next. */
import type { SceneNode } from "../scene/node.ts";
import type { Piece } from "../scene/picture.ts";
import { sameNode } from "../scene/sameNode.ts";
import type { Rect } from "../sheet/transform.ts";
import { changedInNode, changedInPiece } from "./changedInk.ts";
import { type Box, boxOfNode, boxOfPiece } from "./inkBox.ts";
import { type Level, levelOf, levels } from "./over.ts";
import { type Brush, inPaintOrder, paint } from "./paint.ts";
import { canvasIn, grainOf, placeOf, type Screen, wholeOf, within2d } from "./screen.ts";
import { clustersOf, holds, meet, windowsFor, within } from "./windows.ts";

export interface MovingPicture extends Screen {
  /** as the drag began */
  readonly base: ReadonlyMap<string, Piece>;
  /** keys of pieces that were there then and are no longer */
  readonly gone: readonly string[];
  readonly rest: readonly Piece[];
  readonly live: readonly Piece[];
  readonly over: readonly SceneNode[];
  readonly brush: Brush;
  /** px: where the section is */
  readonly field: Rect;
}

export interface MovingPainter {
  paint(picture: MovingPicture): void;
  /** Nothing moves any more. What is painted next is painted anew; the canvases lie ready for it a while. */
  rest(): void;
}

/** ms that canvases are kept for the next drag: a large screen's take a hundred megabytes */
const keptFor = 15_000;

interface Placed {
  readonly what: Piece | SceneNode;
  readonly box: Box;
}

interface Window {
  readonly canvas: HTMLCanvasElement;
  box: Box | null;
  /** what is painted there now; null where that is out of date */
  shows: readonly Placed[] | null;
}

const at = (level: Level, nodes: readonly SceneNode[]): readonly SceneNode[] =>
  nodes.filter((node) => levelOf(node) === level);

/** @param host an element as large as the sheet, to which the canvases are added */
export function createMovingPainter(host: HTMLElement): MovingPainter {
  const still = canvasIn(host);
  /** what rests, by level */
  const resting: Readonly<Record<Level, HTMLCanvasElement>> = {
    low: document.createElement("canvas"),
    high: document.createElement("canvas"),
    sheet: document.createElement("canvas"),
  };
  const windows: Window[] = [];
  let before: MovingPicture | null = null;
  let over: readonly SceneNode[] = [];
  /** where each piece's ink is other than on the still canvas */
  let changes = new WeakMap<Piece, readonly Box[]>();
  let freeing: ReturnType<typeof setTimeout> | undefined;
  const free = (): void => {
    still.getContext("bitmaprenderer")?.transferFromImageBitmap(null);
    for (const canvas of [still, ...Object.values(resting), ...windows.map((window) => window.canvas)]) {
      canvas.width = 0;
      canvas.height = 0;
    }
    for (const window of windows) setUp(window, null, 1);
  };

  /** Where ink of the sheet's own lies over the section: the scale bar, the ruler. */
  let inField: readonly Box[] = [];
  const isUnderSheet = (place: Box, picture: MovingPicture): boolean =>
    !holds(fieldOf(picture), place) || inField.some((box) => meet(box, place));

  /** The picture that the drag began with, to be seen, and its levels for what moves between them. */
  const paintBase = (picture: MovingPicture): void => {
    const { base, pixelRatio, brush } = picture;
    const whole = wholeOf(picture);
    const nodes = inPaintOrder([...base.values()].flatMap((piece) => piece.nodes));
    for (const level of levels) {
      const canvas = resting[level];
      // Sets it free of all that was on it, too.
      canvas.width = whole.right;
      canvas.height = whole.bottom;
      const context = canvas.getContext("2d");
      context?.scale(pixelRatio, pixelRatio);
      if (context) paint(context, at(level, nodes), brush);
    }
    const both = new OffscreenCanvas(whole.right, whole.bottom);
    const context = both.getContext("2d");
    for (const level of levels) context?.drawImage(resting[level], 0, 0);
    still.getContext("bitmaprenderer")?.transferFromImageBitmap(both.transferToImageBitmap());
    still.style.width = `${whole.right / pixelRatio}px`;
    still.style.height = `${whole.bottom / pixelRatio}px`;
    inField = at("sheet", nodes).flatMap((node) => {
      const box = placeOf(boxOfNode(node, brush), picture);
      // What goes round all of it covers nothing within.
      return box && meet(box, fieldOf(picture)) && !holds(box, fieldOf(picture)) ? [box] : [];
    });
    for (const window of windows) window.shows = null;
    changes = new WeakMap();
  };

  /** Takes what no longer rests off its levels, and tells where it was. */
  const takeOff = (rested: Iterable<Piece>, picture: MovingPicture): readonly Box[] => {
    const { rest, brush, pixelRatio } = picture;
    const stays = new Set(rest);
    const boxes: Box[] = [];
    for (const piece of rested) {
      const box = stays.has(piece) ? null : placeOf(boxOfPiece(piece, brush), picture);
      if (box) boxes.push(box);
    }
    const places = clustersOf(boxes, dirty);
    if (places.length === 0) return places;
    const near = rest.filter((piece) => {
      const box = placeOf(boxOfPiece(piece, brush), picture);
      return box !== null && places.some((place) => meet(place, box));
    });
    const nodes = inPaintOrder(near.flatMap((piece) => piece.nodes));
    for (const level of levels)
      for (const place of places)
        within2d(resting[level], place, (context) => {
          context.scale(pixelRatio, pixelRatio);
          paint(context, nodesIn(at(level, nodes), place, picture), brush);
        });
    return places;
  };

  const paintWindow = ({ box, canvas }: Window, shows: readonly Placed[], place: Box, picture: MovingPicture): void => {
    if (!box) return;
    const { brush, pixelRatio } = picture;
    const pieces: SceneNode[] = [];
    const marks: SceneNode[] = [];
    for (const { what, box: of } of shows) {
      if (!meet(of, place)) continue;
      if ("nodes" in what) pieces.push(...what.nodes);
      else marks.push(what);
    }
    const nodes = inPaintOrder(nodesIn(pieces, place, picture));
    const [width, height] = [place.right - place.left, place.bottom - place.top];
    const here = { left: place.left - box.left, top: place.top - box.top, right: 0, bottom: 0 };
    within2d(canvas, { ...here, right: here.left + width, bottom: here.top + height }, (context) => {
      const put = (from: HTMLCanvasElement): void => {
        context.setTransform(1, 0, 0, 1, 0, 0);
        context.drawImage(from, place.left, place.top, width, height, here.left, here.top, width, height);
        context.setTransform(pixelRatio, 0, 0, pixelRatio, -box.left, -box.top);
      };
      for (const level of levels) {
        if (level !== "sheet" || isUnderSheet(place, picture)) put(resting[level]);
        paint(context, at(level, nodes), brush);
        if (level === "high") paint(context, marks, brush);
      }
    });
  };

  return {
    paint(picture) {
      clearTimeout(freeing);
      const { base, rest, live, brush, pixelRatio } = picture;
      over = sameAsBefore(over, picture.over);
      const goesOn = before !== null && before.base === base && isSameView(before, picture);
      if (!goesOn) paintBase(picture);
      const from = goesOn ? (before as MovingPicture).rest : base.values();
      const takenOff = from === rest ? [] : takeOff(from, picture);
      before = picture;

      const placed: Placed[] = [];
      const other: Box[] = [];
      const place = (what: Piece | SceneNode, found: Box | null): void => {
        const box = placeOf(found, picture);
        if (box) placed.push({ what, box });
      };
      for (const piece of live) {
        place(piece, boxOfPiece(piece, brush));
        let boxes = changes.get(piece);
        if (!boxes) {
          boxes = clustersOf(changedInPiece(base.get(piece.key), piece, brush), dirty);
          changes.set(piece, boxes);
        }
        other.push(...boxes);
      }
      for (const key of picture.gone) other.push(...changedInPiece(base.get(key), undefined, brush));
      for (const node of over) {
        place(node, boxOfNode(node, brush));
        other.push(boxOfNode(node, brush));
      }
      const wanted = windowsFor(
        other.flatMap((box) => placeOf(box, picture) ?? []),
        windows.map(({ box }) => box),
        wholeOf(picture),
        grainOf(picture),
      );
      wanted.forEach((box, i) => {
        windows[i] ??= { canvas: canvasIn(host), box: null, shows: null };
        const window = windows[i] as Window;
        if (box !== window.box) {
          setUp(window, box, pixelRatio);
          window.shows = null;
        }
        if (!box) return;
        const shows = placed.filter((one) => meet(one.box, box));
        const places = window.shows ? [...takenOff, ...otherIn(window.shows, shows, picture)] : [box];
        window.shows = shows;
        const inside = places.flatMap((one) => within(one, box) ?? []);
        for (const one of clustersOf(inside, dirty)) paintWindow(window, shows, one, picture);
      });
    },
    rest() {
      before = null;
      clearTimeout(freeing);
      freeing = setTimeout(free, keptFor);
    },
  };
}

/** What is painted anew of a window: apart, so that nothing is laid over itself. Measured: with larger rectangles more ink
 * is painted for nothing, with smaller ones the same ink is begun more often. */
const dirty = { worth: 1500, most: 16, apart: true };

/** Where two lists of things differ. */
function otherIn(was: readonly Placed[], is: readonly Placed[], picture: MovingPicture): readonly Box[] {
  const gone = new Map(was.map(({ what }) => [what.key, what]));
  const boxes: Box[] = [];
  const compare = (a: Piece | SceneNode | undefined, b: Piece | SceneNode | undefined): void => {
    if (a === b) return;
    const found =
      "nodes" in ((a ?? b) as Piece | SceneNode)
        ? changedInPiece(a as Piece | undefined, b as Piece | undefined, picture.brush)
        : changedInNode(a as SceneNode | undefined, b as SceneNode | undefined, picture.brush);
    boxes.push(...found.flatMap((box) => placeOf(box, picture) ?? []));
  };
  for (const { what } of is) {
    compare(gone.get(what.key), what);
    gone.delete(what.key);
  }
  for (const what of gone.values()) compare(what, undefined);
  return boxes;
}

/** The marks of the hand are made anew each time; those that are as they were stay the same objects. */
const sameAsBefore = (before: readonly SceneNode[], now: readonly SceneNode[]): readonly SceneNode[] =>
  now.map((node, i) => {
    const was = before[i];
    return was && sameNode(was, node) ? was : node;
  });

const nodesIn = (nodes: readonly SceneNode[], place: Box, picture: MovingPicture): readonly SceneNode[] =>
  nodes.filter((node) => {
    const box = placeOf(boxOfNode(node, picture.brush), picture);
    return box !== null && meet(box, place);
  });

const fieldOf = (picture: MovingPicture): Box => {
  const { x, y, width, height } = picture.field;
  const { pixelRatio: ratio } = picture;
  return { left: x * ratio, top: y * ratio, right: (x + width) * ratio, bottom: (y + height) * ratio };
};

const isSameView = (a: MovingPicture, b: MovingPicture): boolean =>
  a.brush === b.brush && a.width === b.width && a.height === b.height && a.pixelRatio === b.pixelRatio;

function setUp(window: Window, box: Box | null, pixelRatio: number): void {
  window.box = box;
  const { canvas } = window;
  canvas.style.display = box ? "block" : "none";
  if (!box) return;
  const [width, height] = [box.right - box.left, box.bottom - box.top];
  canvas.width = width;
  canvas.height = height;
  canvas.style.width = `${width / pixelRatio}px`;
  canvas.style.height = `${height / pixelRatio}px`;
  canvas.style.left = `${box.left / pixelRatio}px`;
  canvas.style.top = `${box.top / pixelRatio}px`;
}
