/** A sheet painted on a canvas of its own, in the sheet's own letters: to look at, and to copy. */
import { inPaintOrder, type PenWidths, paint } from "../canvas/paint.ts";
import type { Projection } from "../canvas/projection.ts";
import type { Pen } from "../scene/node.ts";
import { textWidth } from "../scene/textWidth.ts";
import { siteAt } from "../sheet/transform.ts";
import type { PaintedSheet } from "../svg/write.ts";

/** px a millimetre of the printed sheet, for a picture of 150 dots an inch. */
export const copiedPxPerMm = 150 / 25.4;

export function paintPicture(canvas: HTMLCanvasElement, sheet: PaintedSheet, pxPerMm: number): void {
  canvas.width = Math.round(sheet.width * pxPerMm);
  canvas.height = Math.round(sheet.height * pxPerMm);
  const context = canvas.getContext("2d");
  if (!context) throw new Error("this browser gives no canvas to paint on");
  const { brush, nodes } = sheet;
  context.fillStyle = brush.palette.sheet;
  context.fillRect(0, 0, canvas.width, canvas.height);
  paint(context, inPaintOrder(nodes), {
    projection: projectionOn(sheet, pxPerMm),
    colours: brush.palette,
    pens: scenePens(brush.pens, brush.mm),
  });
}

/** Pens are millimetres of print; the painter counts in millimetres of the scene. */
function scenePens(pens: PenWidths, mm: number): PenWidths {
  const widths = Object.entries(pens) as [Pen, number][];
  return Object.fromEntries(widths.map(([pen, width]) => [pen, width / mm])) as PenWidths;
}

function projectionOn({ brush }: PaintedSheet, pxPerPrintedMm: number): Projection {
  const { transform, mm } = brush;
  const pxPerMm = pxPerPrintedMm * mm;
  const pxPerMetre = transform.mmPerMetre * pxPerMm;
  return {
    camera: { x0: transform.x0, z0: transform.z0, scale: pxPerMetre },
    pxPerMm,
    pxPerMetre,
    px: (space, [x, z], offset) => {
      const [dx, dy] = [(offset?.[0] ?? 0) * pxPerMm, (offset?.[1] ?? 0) * pxPerMm];
      return space === "site"
        ? [(x - transform.x0) * pxPerMetre + dx, (transform.z0 - z) * pxPerMetre + dy]
        : [x * pxPerMm + dx, z * pxPerMm + dy];
    },
    site: ([x, y]) => siteAt(transform, [x / pxPerMm, y / pxPerMm]),
    textWidth,
  };
}

/** Rejects where the browser lets no picture on to the clipboard. */
export async function copyPicture(sheet: PaintedSheet): Promise<void> {
  if (typeof ClipboardItem === "undefined" || !navigator.clipboard?.write)
    throw new Error("this browser has no way to copy pictures");
  const canvas = document.createElement("canvas");
  paintPicture(canvas, sheet, copiedPxPerMm);
  const picture = new Promise<Blob>((resolve, reject) =>
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error("the picture could not be made"))), "image/png"),
  );
  await navigator.clipboard.write([new ClipboardItem({ "image/png": picture })]);
}
