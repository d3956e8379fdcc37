/** Canvases and places on them in the screen's own pixels. */
import type { Box } from "./inkBox.ts";
import { within } from "./windows.ts";

export interface Screen {
  /** px of the window */
  readonly width: number;
  readonly height: number;
  /** of the screen to one of the window */
  readonly pixelRatio: number;
}

/** A canvas of its own over those that are there. */
export function canvasIn(host: HTMLElement): HTMLCanvasElement {
  const canvas = document.createElement("canvas");
  canvas.style.position = "absolute";
  canvas.style.left = "0";
  canvas.style.top = "0";
  host.append(canvas);
  return canvas;
}

export const wholeOf = ({ width, height, pixelRatio }: Screen): Box => ({
  left: 0,
  top: 0,
  right: Math.ceil(width * pixelRatio),
  bottom: Math.ceil(height * pixelRatio),
});

/** The fewest of the screen's pixels that are whole pixels of the page: elements are set down on those. 1 where no few are. */
export function grainOf({ pixelRatio }: Screen): number {
  for (let px = 1; px <= 20; px++) {
    const pixels = Math.round(px * pixelRatio);
    if (Math.abs(px * pixelRatio - pixels) < 1e-6) return Math.max(pixels, 1);
  }
  return 1;
}

/** Null where nothing of the box can be seen. */
export function placeOf(box: Box | null, screen: Screen): Box | null {
  if (!box) return null;
  const { pixelRatio: k } = screen;
  return within(
    { left: box.left * k, top: box.top * k, right: box.right * k, bottom: box.bottom * k },
    wholeOf(screen),
  );
}

/** Paints within the place alone, cleared before. In the canvas's own pixels. */
export function within2d(
  canvas: HTMLCanvasElement,
  { left, top, right, bottom }: Box,
  work: (context: CanvasRenderingContext2D) => void,
): void {
  const context = canvas.getContext("2d");
  if (!context) return;
  context.save();
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.beginPath();
  context.rect(left, top, right - left, bottom - top);
  context.clip();
  context.clearRect(left, top, right - left, bottom - top);
  work(context);
  context.restore();
}
