/** The four words of help beside the solved example of the first start, where they cover nothing; else they are left out.
 * They go for good with the first hand on the sheet. */
import { type JSX, useEffect, useLayoutEffect, useRef, useState } from "react";
import { inkShapes } from "../canvas/inkShapes.ts";
import type { Brush } from "../canvas/paint.ts";
import type { SceneNode } from "../scene/node.ts";
import { isOfSection, type Picture } from "../scene/picture.ts";
import type { DeskState } from "../state/desk.ts";
import { freePlace } from "./freePlace.ts";
import { HelpLines, orNew } from "./HelpLines.tsx";
import type { Box } from "./slipPlace.ts";
import { useDesk, useProgram } from "./useDesk.ts";

interface FirstHelpProps {
  readonly picture: Picture;
  readonly brush: Brush;
  /** where something may stand over the sheet */
  readonly free: Box;
  /** with all that will be on the sheet: labels move when the answer comes */
  readonly ready: boolean;
}

/** px; in one line each, or broken */
const widths = [490, 400, 320];
/** px to whatever stands beside it */
const margins = [24, 12];
/** What is tried in turn: amply free before broken lines, all of it before the four words alone. */
const tries = margins.flatMap((margin) =>
  widths.flatMap((width) => [true, false].map((withRest) => ({ margin, width, withRest }))),
);

export function FirstHelp({ picture, brush, free, ready }: FirstHelpProps): JSX.Element | null {
  const slip = useDesk((state) => state.view.slip);
  const isGone = useGoneWithFirstHand();
  const help = useRef<HTMLDivElement>(null);
  const more = useRef<HTMLParagraphElement>(null);
  // Measured as it is written, so that it is clear of everything in any window.
  useLayoutEffect(() => {
    const element = help.current;
    const rest = more.current;
    if (!element || !rest) return;
    // Words that take many lines come down from the upper edge.
    const upper = [...document.querySelectorAll(".upper-edge > *")].map((each) => each.getBoundingClientRect());
    const ink = picture.pieces
      .filter(isOfSection)
      .flatMap(({ nodes }) => nodes.filter((node) => !isHatch(node)).flatMap((node) => inkShapes(node, brush)));
    const keepClear = [...upper, ...ink];
    element.style.visibility = "hidden";
    for (const { margin, width, withRest } of tries) {
      rest.hidden = !withRest;
      element.style.width = `${width}px`;
      const place = freePlace({ width, height: element.offsetHeight }, free, keepClear, margin);
      if (!place) continue;
      Object.assign(element.style, { left: `${place.left}px`, top: `${place.top}px`, visibility: "visible" });
      return;
    }
  });
  if (isGone || !ready || slip !== null) return null;
  return (
    <div ref={help} className="help">
      <HelpLines words={["Place", "Pull", "Drag", "Read"]} />
      <p ref={more}>{orNew}</p>
    </div>
  );
}

/** It lies within the earth, which is looked at. */
const isHatch = ({ layer, shape }: SceneNode): boolean => layer === "back" && shape === "path";

/** A press on the sheet, a change, another drawing, a part that the keyboard chose. */
function useGoneWithFirstHand(): boolean {
  const { desk } = useProgram();
  const [isGone, setGone] = useState(false);
  useEffect(() => {
    if (isGone) return;
    const first = desk.get();
    const leave = desk.subscribe(() => {
      if (!isUntouched(first, desk.get())) setGone(true);
    });
    const pressed = ({ target }: PointerEvent): void => {
      if (target instanceof Element && target.closest(".stage")) setGone(true);
    };
    document.addEventListener("pointerdown", pressed, true);
    return () => {
      leave();
      document.removeEventListener("pointerdown", pressed, true);
    };
  }, [desk, isGone]);
  return isGone;
}

const isUntouched = (first: DeskState, now: DeskState): boolean =>
  now.section === first.section &&
  now.preview === null &&
  now.view.selection.size === 0 &&
  now.view.camera === first.view.camera &&
  now.view.moment === first.view.moment &&
  now.view.played === first.view.played;
