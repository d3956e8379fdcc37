/** The canvases of a picture while something of it moves, in the resting ones' place. */
import { type JSX, memo, useLayoutEffect, useRef } from "react";
import { createMovingPainter, type MovingPainter, type MovingPicture } from "./movingPainter.ts";

export const Moving = memo(function Moving(picture: MovingPicture): JSX.Element {
  const host = useRef<HTMLDivElement>(null);
  const painter = useRef<MovingPainter | null>(null);
  useLayoutEffect(() => {
    if (!host.current) return;
    painter.current ??= createMovingPainter(host.current);
    painter.current.paint(picture);
  });
  return <div ref={host} className="moving" style={{ position: "absolute", inset: 0, overflow: "hidden" }} />;
});
