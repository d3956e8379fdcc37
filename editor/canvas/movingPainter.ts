/** All of a picture while something of it moves: a still canvas with what rests, painted once, and small windows over it
 * in which what moves is put together anew of what rests below, what moves, what rests over it, and what moves over that
 * (`windows.ts`). Only windows in which something changed are painted.
 *
 * One canvas as large as the sheet costs a copy of all its pixels in each frame that changes any of them. To get its
 * pixels at all takes the browser as long as several frames, so the canvases of one drag are kept for the next. */
import type { SceneNode } from "../scene/node.ts";
import type { Piece } from "../scene/picture.ts";
import { type Box, boxOfNode, boxOfPiece } from "./inkBox.ts";
import { type Brush, inPaintOrder, paint } from "./paint.ts";
import { meet, windowsFor, within } from "./windows.ts";

export interface MovingPicture {
  readonly rest: readonly Piece[];
  readonly live: readonly Piece[];
  readonly over: readonly SceneNode[];
  readonly brush: Brush;
  readonly width: number;
  readonly height: number;
  readonly pixelRatio: number;
}

export interface MovingPainter {
  paint(picture: MovingPicture): void;
  /** Nothing moves any more. What is painted next is painted anew; the canvases lie ready for it a while. */
  rest(): void;
}

/** ms that canvases are kept for the next drag: a large screen's take a hundred megabytes */
const keptFor = 15_000;

interface Placed<T> {
  readonly what: T;
  readonly box: Box;
}

interface Window {
  readonly canvas: HTMLCanvasElement;
  box: Box | null;
  /** what is painted there now; null where that is out of date */
  shows: readonly unknown[] | null;
}

export const isLow = (node: SceneNode): boolean => node.layer === "back" || node.layer === "bodies";
const isHigh = (node: SceneNode): boolean => !isLow(node);

/** @param host an element as large as the sheet, to which the canvases are added */
export function createMovingPainter(host: HTMLElement): MovingPainter {
  const still = canvasIn(host);
  const low = document.createElement("canvas");
  const high = document.createElement("canvas");
  const windows: Window[] = [];
  let before: MovingPicture | null = null;
  let freeing: ReturnType<typeof setTimeout> | undefined;
  const free = (): void => {
    for (const canvas of [still, low, high, ...windows.map((window) => window.canvas)]) {
      canvas.width = 0;
      canvas.height = 0;
    }
    for (const window of windows) setUp(window, null, 1);
  };

  /** What rests, on three canvases: low and high for what moves between them, and both in one to be seen. */
  const paintRest = (picture: MovingPicture): void => {
    const { rest, brush, width, height, pixelRatio } = picture;
    const isSameView =
      before !== null &&
      before.brush === brush &&
      before.width === width &&
      before.height === height &&
      before.pixelRatio === pixelRatio;
    if (isSameView && before?.rest === rest) return;
    const whole = wholeOf(picture);
    const stays = new Set(rest);
    const places =
      isSameView && before && rest.every((piece) => before?.rest.includes(piece))
        ? before.rest.flatMap((piece) => (stays.has(piece) ? [] : (placeOf(boxOfPiece(piece, brush), picture) ?? [])))
        : null;
    if (places === null)
      for (const canvas of [still, low, high]) {
        // Sets it free of all that was on it, too.
        canvas.width = whole.right;
        canvas.height = whole.bottom;
        canvas.style.width = `${whole.right / pixelRatio}px`;
        canvas.style.height = `${whole.bottom / pixelRatio}px`;
      }
    const pieces =
      places === null
        ? rest
        : rest.filter((piece) => {
            const box = placeOf(boxOfPiece(piece, brush), picture);
            return box !== null && places.some((place) => meet(place, box));
          });
    const nodes = inPaintOrder(pieces.flatMap((piece) => piece.nodes));
    for (const [canvas, those] of [
      [low, nodes.filter(isLow)],
      [high, nodes.filter(isHigh)],
    ] as const)
      within2d(canvas, places, (context) => {
        context.scale(pixelRatio, pixelRatio);
        paint(context, those, brush);
      });
    within2d(still, places, (context) => {
      context.drawImage(low, 0, 0);
      context.drawImage(high, 0, 0);
    });
    for (const window of windows) window.shows = null;
  };

  const paintWindow = (
    window: Window,
    shows: readonly (Placed<Piece> | Placed<SceneNode>)[],
    picture: MovingPicture,
  ) => {
    const { box, canvas } = window;
    const context = canvas.getContext("2d");
    if (!box || !context) return;
    const { brush, pixelRatio } = picture;
    const [width, height] = [box.right - box.left, box.bottom - box.top];
    const pieces: SceneNode[] = [];
    const over: SceneNode[] = [];
    for (const { what } of shows) {
      if ("nodes" in what) pieces.push(...what.nodes);
      else over.push(what);
    }
    const nodes = inPaintOrder(pieces);
    const put = (from: HTMLCanvasElement): void => {
      context.setTransform(1, 0, 0, 1, 0, 0);
      context.drawImage(from, box.left, box.top, width, height, 0, 0, width, height);
      context.setTransform(pixelRatio, 0, 0, pixelRatio, -box.left, -box.top);
    };
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, width, height);
    put(low);
    paint(context, nodes.filter(isLow), brush);
    put(high);
    paint(context, nodes.filter(isHigh), brush);
    paint(context, over, brush);
    window.shows = shows.map(({ what }) => what);
  };

  return {
    paint(picture) {
      clearTimeout(freeing);
      const { live, over, brush, pixelRatio } = picture;
      paintRest(picture);
      const placed: (Placed<Piece> | Placed<SceneNode>)[] = [];
      for (const piece of live) {
        const box = placeOf(boxOfPiece(piece, brush), picture);
        if (box) placed.push({ what: piece, box });
      }
      for (const node of over) {
        const box = placeOf(boxOfNode(node, brush), picture);
        if (box) placed.push({ what: node, box });
      }
      before = picture;
      const wanted = windowsFor(
        placed.map(({ box }) => box),
        windows.map(({ box }) => box),
        wholeOf(picture),
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
        const { shows: shown } = window;
        if (shown?.length !== shows.length || shows.some(({ what }, k) => what !== shown[k]))
          paintWindow(window, shows, picture);
      });
    },
    rest() {
      before = null;
      clearTimeout(freeing);
      freeing = setTimeout(free, keptFor);
    },
  };
}

function canvasIn(host: HTMLElement): HTMLCanvasElement {
  const canvas = document.createElement("canvas");
  canvas.style.position = "absolute";
  canvas.style.left = "0";
  canvas.style.top = "0";
  host.append(canvas);
  return canvas;
}

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

/** In the screen's own pixels, as are all places here. */
const wholeOf = ({ width, height, pixelRatio }: MovingPicture): Box => ({
  left: 0,
  top: 0,
  right: Math.ceil(width * pixelRatio),
  bottom: Math.ceil(height * pixelRatio),
});

function placeOf(box: Box | null, picture: MovingPicture): Box | null {
  if (!box) return null;
  const { pixelRatio: k } = picture;
  return within(
    { left: box.left * k, top: box.top * k, right: box.right * k, bottom: box.bottom * k },
    wholeOf(picture),
  );
}

/** Paints within the places alone, each cleared before; without places the canvas is clear already. */
function within2d(
  canvas: HTMLCanvasElement,
  places: readonly Box[] | null,
  work: (context: CanvasRenderingContext2D) => void,
): void {
  const context = canvas.getContext("2d");
  if (!context || places?.length === 0) return;
  context.save();
  if (places) {
    context.beginPath();
    for (const { left, top, right, bottom } of places) context.rect(left, top, right - left, bottom - top);
    context.clip();
    context.clearRect(0, 0, canvas.width, canvas.height);
  }
  work(context);
  context.restore();
}
