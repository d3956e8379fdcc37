/** The drawing as it is painted in a window: laid out, composed at rest, followed while the hand moves something. */
import { useMemo, useRef } from "react";
import type { FaultResult, Section } from "../../hydraulics/index.ts";
import type { Brush } from "../canvas/paint.ts";
import { type Projection, projectionOf } from "../canvas/projection.ts";
import type { SceneInput, SceneView } from "../scene/build.ts";
import { fitSection, isNarrow, type SheetLayout, sheetLayout } from "../scene/layout.ts";
import type { SceneNode } from "../scene/node.ts";
import { palettes, penWidths } from "../scene/palette.ts";
import { compose, follow, type Picture } from "../scene/picture.ts";
import { cameraOf, mmOfPx, transformOfCamera } from "../sheet/transform.ts";
import type { View } from "../state/view.ts";
import { arrowsOf } from "./arrowsOf.ts";
import { playedRun } from "./playedRun.ts";
import { headroomOf } from "./sheetPlaces.ts";
import type { Shown } from "./shown.ts";
import { useProgram } from "./useDesk.ts";
import { useReducedMotion } from "./useReducedMotion.ts";

export interface PictureWish {
  readonly view: View;
  /** what is on the sheet */
  readonly section: Section;
  readonly shown: Shown;
  readonly inHand: boolean;
  /** px of the window */
  readonly width: number;
  readonly height: number;
}

export interface SheetPicture {
  readonly layout: SheetLayout;
  readonly narrow: boolean;
  readonly projection: Projection;
  readonly brush: Brush;
  readonly picture: Picture;
  /** null where nothing may move */
  readonly arrowsAt: ((clock: number) => readonly SceneNode[]) | null;
  /** the fault whose moment is on the sheet */
  readonly faultShown: FaultResult | null;
}

export function useSheetPicture({ view, section, shown, inHand, width, height }: PictureWish): SheetPicture {
  const { desk } = useProgram();
  const paper = useMemo(() => ({ width: mmOfPx(width), height: mmOfPx(height) }), [width, height]);
  const narrow = isNarrow(paper);
  const headroom = headroomOf(narrow);
  const layout = useMemo(() => sheetLayout(paper, { headroom }), [paper, headroom]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fitted counts the wishes to fit; edits must not move the sheet
  const fitted = useMemo(
    () => cameraOf(fitSection(desk.get().section, paper, { headroom })),
    [view.fitted, paper, headroom],
  );
  const camera = view.camera ?? fitted;
  const projection = useMemo(() => projectionOf(camera), [camera]);
  const { running, latest } = shown;
  const exact = shown.assessment !== null;
  const look = useMemo(
    (): SceneView => ({
      system: view.units,
      moment: view.moment,
      gradeLine: view.gradeLine,
      transform: transformOfCamera(camera),
      paper,
      headroom,
    }),
    [view.units, view.moment, view.gradeLine, camera, paper, headroom],
  );
  const input = useMemo(
    (): SceneInput => ({
      section,
      running,
      powerCut: latest?.powerCut ?? null,
      ...(latest === null ? { following: true } : {}),
      ...(view.played ? { played: playedRun(latest, view.played, exact) } : {}),
      findings: latest?.findings ?? [],
      view: look,
    }),
    [section, running, latest, exact, view.played, look],
  );
  const faultShown = (view.moment !== null && input.played?.fault) || null;
  const painted = useRef<Picture | null>(null);
  const picture = useMemo(() => {
    // Labels keep to their parts while the hand moves something and look for free places when it lets go.
    painted.current = inHand && painted.current ? follow(input, painted.current) : compose(input);
    return painted.current;
  }, [input, inHand]);
  const still = useReducedMotion();
  const arrowsAt = useMemo(
    () => (still || !running?.converged ? null : (clock: number) => arrowsOf(input, clock)),
    [input, still, running],
  );
  const brush = useMemo(
    (): Brush => ({ projection, colours: palettes[view.theme], pens: penWidths.screen }),
    [projection, view.theme],
  );
  return { layout, narrow, projection, brush, picture, arrowsAt, faultShown };
}
