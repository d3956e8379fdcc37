/** The strip "If the power fails" answers to the hand: a handle along its time axis, play, pause, step. */
import { type CSSProperties, type JSX, useEffect, useRef } from "react";
import type { PowerCut } from "../../hydraulics/index.ts";
import type { SheetLayout } from "../scene/layout.ts";
import { stripAxis, stripPlot } from "../scene/strip.ts";
import { pxOfMm } from "../sheet/transform.ts";
import { formatTime } from "../sheet/units.ts";
import { useDesk, useLatest, useProgram } from "./useDesk.ts";

/** s that the whole of a power cut takes to play, however long it was: the axis is stretched, and so is this. */
const playFor = 16;

export function StripControls({
  layout,
  powerCut,
}: {
  readonly layout: SheetLayout;
  readonly powerCut: PowerCut | null;
}): JSX.Element | null {
  const { desk } = useProgram();
  const moment = useDesk((state) => state.view.moment);
  const playing = useDesk((state) => state.view.playing);
  const usable =
    powerCut !== null && powerCut.history.times.length > 1 && powerCut.vessels.size > 0 && layout.strip !== null;
  const cut = useLatest(powerCut);
  const dragging = useRef(false);

  useEffect(() => {
    if (!playing || !usable) return;
    let frame = 0;
    let before = performance.now();
    const step = (time: number): void => {
      const now = cut.current;
      if (!now) return;
      const axis = stripAxis(now);
      const share = axis.shareAt(desk.get().view.moment ?? 0) + (time - before) / 1000 / playFor;
      before = time;
      desk.look((view) => ({ ...view, moment: axis.timeAt(Math.min(share, 1)), playing: share < 1 }));
      frame = requestAnimationFrame(step);
    };
    frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(frame);
  }, [playing, usable, desk, cut]);

  if (!usable || !powerCut || !layout.strip) return null;
  const axis = stripAxis(powerCut);
  const plot = stripPlot(layout.strip);
  const events = powerCut.events.map((event) => event.time);
  const place: CSSProperties = {
    left: pxOfMm(plot.x),
    top: pxOfMm(plot.y),
    width: pxOfMm(plot.width),
    height: pxOfMm(plot.height + 6),
  };
  const set = (time: number): void =>
    desk.look((view) => ({ ...view, moment: Math.min(Math.max(time, 0), powerCut.duration), playing: false }));
  const setBy = (share: number): void => set(axis.timeAt(Math.min(Math.max(share, 0), 1)));
  const point = (event: React.PointerEvent<HTMLElement>): void => {
    const box = event.currentTarget.getBoundingClientRect();
    setBy((event.clientX - box.left) / box.width);
  };
  const toEvent = (ahead: boolean): void => {
    const at = moment ?? -1;
    const next = ahead
      ? events.find((time) => time > at + 1e-6)
      : [...events].reverse().find((time) => time < at - 1e-6);
    set(next ?? (ahead ? powerCut.duration : 0));
  };
  const play = (): void => {
    const still = window.matchMedia("(prefers-reduced-motion: reduce)").matches;
    // Without motion a press goes from event to event.
    if (still) return toEvent(true);
    desk.look((view) => ({
      ...view,
      playing: !view.playing,
      moment: view.moment === null || view.moment >= powerCut.duration ? 0 : view.moment,
    }));
  };
  const now = powerCut.events.filter((event) => moment !== null && event.time <= moment + 1e-6).at(-1);
  return (
    <>
      <div
        className="on-picture"
        role="slider"
        tabIndex={0}
        aria-label="Time after the power failed"
        aria-valuemin={0}
        aria-valuemax={Math.round(powerCut.duration)}
        aria-valuenow={Math.round(moment ?? 0)}
        aria-valuetext={
          moment === null
            ? "the running state"
            : `${formatTime(moment)} after the power failed${now ? `: ${now.text}` : ""}`
        }
        style={{ ...place, cursor: "ew-resize", touchAction: "none" }}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          dragging.current = true;
          point(event);
        }}
        onPointerMove={(event) => dragging.current && point(event)}
        onPointerUp={() => {
          dragging.current = false;
        }}
        onPointerCancel={() => {
          dragging.current = false;
        }}
        onKeyDown={(event) => {
          const share = axis.shareAt(moment ?? 0);
          const moves = new Map<string, () => void>([
            ["ArrowRight", () => setBy(share + 0.01)],
            ["ArrowLeft", () => setBy(share - 0.01)],
            ["PageUp", () => toEvent(true)],
            ["PageDown", () => toEvent(false)],
            ["Home", () => set(0)],
            ["End", () => set(powerCut.duration)],
            [" ", play],
            ["Enter", play],
          ]);
          const move = moves.get(event.key);
          if (!move) return;
          event.preventDefault();
          event.stopPropagation();
          move();
        }}
      />
      <div
        className="play"
        style={{ right: `calc(100% - ${pxOfMm(plot.x + plot.width)}px)`, top: pxOfMm(layout.strip.y + 7) - 16 }}
      >
        <button type="button" className="word" onClick={play}>
          <b>{playing ? "Pause" : "Play"}</b>
        </button>
        {layout.narrow ? null : (
          <button type="button" className="word" onClick={() => toEvent(false)}>
            Event back
          </button>
        )}
        <button type="button" className="word" aria-label="Event on" onClick={() => toEvent(true)}>
          {layout.narrow ? "On" : "Event on"}
        </button>
        {layout.narrow && moment === null ? null : (
          <button
            type="button"
            className="word"
            aria-label="Running"
            disabled={moment === null}
            onClick={() => desk.look((view) => ({ ...view, moment: null, playing: false }))}
          >
            {layout.narrow ? "Run" : "Running"}
          </button>
        )}
      </div>
    </>
  );
}
