/** Four words of help on a sheet that is still empty. */
import type { JSX } from "react";
import { pxOfMm, type Rect } from "../sheet/transform.ts";
import { HelpLines, orNew } from "./HelpLines.tsx";

/** Clear of the line of the ground, which a sheet that is still empty has in the middle: all of it over the line where
 * the air is high enough, else the first half over it and the rest under the soil. In a window too low for either the
 * first half stands on paper of its own, wherever the line is; the lowest leave it to the title block to say how to begin. */
export function EmptyHelp({ drawing }: { readonly drawing: Rect }): JSX.Element | null {
  const [left, top, width, height] = [drawing.x, drawing.y, drawing.width, drawing.height].map(pxOfMm) as Four;
  const air = height / 2;
  const isSlim = width < 480; // its lines are broken
  const first = <HelpLines words={["Place", "Pull"]} />;
  if (air < (isSlim ? 120 : 60))
    return height < (isSlim ? 90 : 50) ? null : (
      <div className="help on-paper" style={{ left: left - 4, top, width: width + margin }}>
        {first}
      </div>
    );
  const rest = (
    <>
      <HelpLines words={["Drag", "Read"]} />
      <p>{orNew}</p>
    </>
  );
  if (!isSlim && air >= 148)
    return (
      <div className="help" style={{ left, top: top + 40, width }}>
        {first}
        {rest}
      </div>
    );
  const beside = { left: left - 4, width: width + margin };
  return (
    <>
      <div className="help" style={{ ...beside, top: top + air - 8, transform: "translateY(-100%)" }}>
        {first}
      </div>
      <div className="help" style={{ ...beside, top: top + air + soil }}>
        {rest}
      </div>
    </>
  );
}

type Four = [number, number, number, number];

/** px that a drawing keeps free beside itself for level marks, which an empty one has not. */
const margin = 40;
/** px from the line of the ground to under its hatching */
const soil = 52;
