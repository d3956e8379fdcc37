import { element } from "./element.ts";
import { paintSvg } from "./paintSvg.ts";
import type { PaintedSheet } from "./write.ts";

/** A sheet as an SVG element to stand in a page of ours, for print: without a document inside. */
export function pictureSvg({ nodes, brush, width, height }: PaintedSheet): string {
  const root = {
    xmlns: "http://www.w3.org/2000/svg",
    width: `${width}mm`,
    height: `${height}mm`,
    viewBox: `0 0 ${width} ${height}`,
  };
  const ground = element("rect", { width, height, fill: brush.palette.sheet });
  return element("svg", root, `\n${ground}\n${paintSvg(nodes, brush)}\n`);
}
