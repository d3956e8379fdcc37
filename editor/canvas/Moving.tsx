/** The canvases of a picture while something of it moves, in the resting ones' place. */
import { type JSX, memo, useLayoutEffect, useRef } from "react";
import { createMovingPainter, type MovingPainter, type MovingPicture } from "./movingPainter.ts";

/** @param picture null while nothing moves */
export const Moving = memo(function Moving({ picture }: { readonly picture: MovingPicture | null }): JSX.Element {
  const host = useRef<HTMLDivElement>(null);
  const painter = useRef<MovingPainter | null>(null);
  const moves = picture !== null;
  useLayoutEffect(() => {
    if (!host.current || !picture) return;
    painter.current ??= createMovingPainter(host.current);
    painter.current.paint(picture);
  });
  useLayoutEffect(() => {
    if (moves) return () => painter.current?.rest();
  }, [moves]);
  return (
    <div
      ref={host}
      className={moves ? "moving" : undefined}
      style={{ position: "absolute", inset: 0, overflow: "hidden", display: moves ? "block" : "none" }}
    />
  );
});
