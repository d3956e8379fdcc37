/** The window as a sheet: the canvas below, and on it what a hand can press. */
import { type JSX, memo, useCallback, useLayoutEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import type { PartId } from "../../hydraulics/index.ts";
import { anchorOf, boxesOf } from "../canvas/anchorOf.ts";
import { Guides } from "../canvas/Guides.tsx";
import { keepTyped } from "../canvas/gesture/keepTyped.ts";
import { attachGestures, type Gestures, type HandShow, restingHand } from "../canvas/gestures.ts";
import { handNodes } from "../canvas/handNodes.ts";
import { tagPlace } from "../canvas/handPlaces.ts";
import { intoSight, placesOf, strode } from "../canvas/intoSight.ts";
import { placeByKey } from "../canvas/placing.ts";
import { SheetCanvas } from "../canvas/SheetCanvas.tsx";
import { inSight, isInRect, isWithin, zoomedAt } from "../canvas/zoom.ts";
import { nodesOf } from "../scene/picture.ts";
import { boundsOf, extremesOf, pxOfMm, pxOfRect } from "../sheet/transform.ts";
import { takeDropped } from "../state/files/openFile.ts";
import { freshParts } from "../state/freshParts.ts";
import { inOrder } from "../state/inOrder.ts";
import { fitSheet, type Tool } from "../state/view.ts";
import type { Commands } from "./commands.ts";
import { EmptyHelp } from "./EmptyHelp.tsx";
import { FirstHelp } from "./FirstHelp.tsx";
import { HandTag, tagLines } from "./HandTag.tsx";
import { listenToKeys } from "./keyboard.ts";
import { makeCommands } from "./makeCommands.ts";
import { ContextMenu } from "./menu/ContextMenu.tsx";
import { useContextMenu } from "./menu/useContextMenu.ts";
import { PartList } from "./PartList.tsx";
import { PartSlip } from "./PartSlip.tsx";
import { Announcer, Saying } from "./Saying.tsx";
import { SheetSlip } from "./SheetSlip.tsx";
import { Stencils } from "./Stencils.tsx";
import { StripControls } from "./StripControls.tsx";
import { freeBox, isWide, sheetSlipPlace, upperEdge } from "./sheetPlaces.ts";
import { type Box, slipPlace } from "./slipPlace.ts";
import { TitleControls } from "./TitleControls.tsx";
import { useLatest, useProgram } from "./useDesk.ts";
import { useSheetPicture } from "./useSheetPicture.ts";
import { useShown } from "./useShown.ts";
import { useWindowSize } from "./useWindowSize.ts";
import { spoken } from "./verdict.ts";
import { Words } from "./Words.tsx";

const slipWidth = 300;

// A drag changes none of what these show: they are not asked again in each of its frames.
const StillPartList = memo(PartList);
const StillStencils = memo(Stencils);
const StillWords = memo(Words);
const StillTitleControls = memo(TitleControls);
const StillStripControls = memo(StripControls);
const StillSaying = memo(Saying);
const StillAnnouncer = memo(Announcer);
const StillFirstHelp = memo(FirstHelp);

/** @param isFirstStart the example is on the sheet because this browser keeps no drawing yet */
export function Sheet({ isFirstStart }: { readonly isFirstStart: boolean }): JSX.Element {
  const { desk, results } = useProgram();
  const state = useSyncExternalStore(desk.subscribe, desk.get);
  const { width, height } = useWindowSize();
  const { view, section } = state;
  const inHand = state.preview !== null;
  const shownSection = state.preview?.section ?? section;
  const [hand, setHand] = useState<HandShow>(restingHand);
  const { shown, result, mendsOf } = useShown(results, { section: shownSection, inHand, view });

  // --- the picture -----------------------------------------------------------------------------------------
  const { layout, narrow, projection, brush, picture, arrowsAt, faultShown } = useSheetPicture({
    view,
    section: shownSection,
    shown,
    inHand,
    width,
    height,
  });
  const { pieces } = picture;
  const field = useMemo(() => pxOfRect(layout.field), [layout]);
  const beside = useUnless(inHand, shown);
  const over = useMemo(
    () => handNodes({ section: shownSection, selection: view.selection, stop: view.stop, hand, picture }),
    [shownSection, view.selection, view.stop, hand, picture],
  );

  useLayoutEffect(() => {
    document.documentElement.dataset.theme = view.theme;
  }, [view.theme]);

  // --- hands and keys ----------------------------------------------------------------------------------------
  const stage = useRef<HTMLDivElement>(null);
  const gestures = useRef<Gestures | null>(null);
  const now = useLatest({
    projection,
    get nodes() {
      return nodesOf(picture);
    },
    width,
    height,
    layout,
  });
  const commands = useMemo(
    (): Commands => ({
      ...makeCommands(desk),
      fit: () => desk.look(fitSheet),
      zoom: (by) => {
        const { projection: p, layout: l } = now.current;
        const { x, y, width: w, height: h } = l.field;
        // About the middle of the section's part of the sheet: a narrow one has its strip in the window's middle.
        const middle = [pxOfMm(x + w / 2), pxOfMm(y + h / 2)] as const;
        const camera = zoomedAt(p.camera, middle, p.camera.scale * by);
        const seen = inSight(camera, boundsOf(desk.get().section), now.current);
        desk.look((v) => ({ ...v, camera: seen }));
      },
      stride: (to) => {
        const { projection: p, layout: l } = now.current;
        const camera = strode(p.camera, to, boundsOf(desk.get().section), pxOfRect(l.field));
        desk.look((v) => ({ ...v, camera }));
      },
    }),
    [desk, now],
  );
  // With the picture, not after it: a key pressed as soon as the sheet is there counts.
  useLayoutEffect(() => {
    const element = stage.current;
    if (!element) return;
    const attached = attachGestures(element, {
      desk,
      projection: () => now.current.projection,
      nodes: () => now.current.nodes,
      field: () => pxOfRect(now.current.layout.field),
      show: setHand,
    });
    gestures.current = attached;
    return attached.detach;
  }, [desk, now]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: told when it changes, not read
  useLayoutEffect(() => gestures.current?.sheetMoved(), [projection.camera]);
  const cancelHand = useCallback(() => gestures.current?.cancel() ?? false, []);
  const menu = useContextMenu({ desk, fit: commands.fit, stage, now, cancelHand });
  useLayoutEffect(
    () => listenToKeys({ desk, commands, cancelHand, openMenu: menu.openByKey }),
    [desk, commands, cancelHand, menu.openByKey],
  );
  const bringIntoSight = useCallback(
    (id: PartId) => {
      const { section: there } = desk.get();
      const part = there.parts.get(id);
      if (!part) return;
      const { projection: p, layout: l } = now.current;
      const camera = intoSight(p.camera, placesOf(there, part), pxOfRect(l.drawing));
      if (camera !== p.camera) desk.look((v) => ({ ...v, camera }));
    },
    [desk, now],
  );
  const pull = useCallback((tool: Tool, event: React.PointerEvent) => gestures.current?.pull(tool, event), []);
  const placeWithoutPointer = useCallback(
    (tool: Tool) => {
      const { section: before, view: v } = desk.get();
      const { layout: l, projection: p } = now.current;
      const { drawing } = l;
      const middle = p.site([pxOfMm(drawing.x + drawing.width / 2), pxOfMm(drawing.y + drawing.height / 2)]);
      const changed = placeByKey(before, tool, middle, v.selection);
      if (!desk.apply(changed) || !changed.ok) return;
      const { section: after } = changed;
      const fresh = freshParts(before, after);
      const isSeen = fresh
        .flatMap((part) => extremesOf(after, part))
        .every((place) => isWithin(p, place, pxOfRect(drawing)));
      desk.look((look) => ({
        ...(isSeen ? look : fitSheet(look)),
        tool: null,
        selection: new Set(fresh.map(({ id }) => id)),
      }));
    },
    [desk, now],
  );

  // --- the slip ------------------------------------------------------------------------------------------------
  const chosen = useMemo(
    () => inOrder(section).filter((part) => view.selection.has(part.id)),
    [section, view.selection],
  );
  const free = useMemo((): Box => freeBox(layout), [layout]);
  const leadPart = chosen.length === 1 ? chosen[0] : undefined;
  const first = chosen[0];
  const { pressed } = hand;
  const place = useMemo(() => {
    const alive = first && !inHand && shownSection.parts.get(first.id);
    if (!alive) return null;
    const own = boxesOf(shownSection, alive, projection);
    return slipPlace({
      anchor: projection.px("site", pressed?.part === alive.id ? pressed.at : anchorOf(shownSection, alive)),
      keepClear: [...shownSection.parts.values()].flatMap((part) => boxesOf(shownSection, part, projection)),
      itself: own,
      free,
      width: slipWidth,
    });
  }, [first, inHand, shownSection, projection, free, pressed]);
  // While something is in the hand its slip would only be in the way.
  const partSlipOpen = place !== null && view.slip === null && hand.marquee === null && !inHand && view.tool === null;

  const tag = tagLines(hand, shown, inHand, view.units);
  const tagAt = hand.at && tag.length > 0 ? tagPlace(tag, hand.at, { width, height }) : null;

  return (
    <main
      className="desk"
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault();
        keepTyped();
        void takeDropped(desk, event.dataTransfer);
      }}
    >
      <h1 className="hidden">{section.title}, a section drawing</h1>
      <div
        ref={stage}
        className="stage"
        data-behind={shown.assessment ? 0 : results.behind()}
        style={{ cursor: hand.cursor }}
      >
        <div aria-hidden="true">
          <SheetCanvas
            width={width}
            height={height}
            pieces={pieces}
            over={over}
            field={field}
            brush={brush}
            moving={inHand || view.playing}
            arrowsAt={arrowsAt}
          />
          <Guides hand={hand} brush={brush} field={field} tag={tagAt} width={width} height={height} />
        </div>
      </div>
      <StillPartList section={section} assessment={beside.assessment} bringIntoSight={bringIntoSight} />
      <div className="upper-edge" style={upperEdge(layout.frame, narrow)}>
        <StillStencils onPull={pull} onKey={placeWithoutPointer} />
        <StillWords commands={commands} />
      </div>
      <StillTitleControls
        layout={layout}
        findings={beside.latest?.findings.length ?? 0}
        solved={beside.assessment !== null}
      />
      <StillStripControls layout={layout} assessment={beside.latest} />
      {section.parts.size === 0 && !inHand ? <EmptyHelp drawing={layout.drawing} /> : null}
      {isFirstStart ? (
        <StillFirstHelp picture={picture} brush={brush} free={free} ready={shown.assessment !== null} />
      ) : null}
      {partSlipOpen && place.leader && leadPart && isInRect(place.leader[1], field) ? (
        <svg className="leader" aria-hidden="true">
          <line x1={place.leader[0][0]} y1={place.leader[0][1]} x2={place.leader[1][0]} y2={place.leader[1][1]} />
          <circle cx={place.leader[1][0]} cy={place.leader[1][1]} r="2.6" />
        </svg>
      ) : null}
      {partSlipOpen ? (
        <section
          className="slip"
          id="slip"
          aria-label="What is chosen"
          style={narrow ? {} : { left: place.left, top: place.top, maxHeight: place.maxHeight }}
        >
          <PartSlip section={section} parts={chosen} assessment={shown.assessment} mendsOf={mendsOf} />
        </section>
      ) : null}
      {view.slip ? (
        <section
          className={`slip ${isWide(view.slip) ? "wide" : ""}`}
          id="sheet-slip"
          aria-label="Slip of the sheet"
          style={narrow ? {} : sheetSlipPlace(free, isWide(view.slip), width)}
        >
          <SheetSlip which={view.slip} section={section} assessment={shown.assessment} mendsOf={mendsOf} />
        </section>
      ) : null}
      {tagAt ? <HandTag lines={tag} place={tagAt} /> : null}
      {menu.open ? <ContextMenu key={menu.open.at.join()} {...menu.open} close={menu.close} /> : null}
      <StillSaying top={free.top + 6} />
      <StillAnnouncer text={inHand ? "" : spoken(section, shown.assessment, view.units, faultShown)} />
      {result?.broken && result.section === section ? (
        <p className="message refusal" role="alert" style={{ top: free.top + 6 }}>
          The solver broke a promise of its own ({result.broken}). The drawing is as it was; no figures are shown.
        </p>
      ) : null}
    </main>
  );
}

/** The value, or while the hand is busy with the sheet the one before that: nobody can press what stands beside it. */
function useUnless<T>(busy: boolean, value: T): T {
  const kept = useRef(value);
  if (!busy) kept.current = value;
  return kept.current;
}
