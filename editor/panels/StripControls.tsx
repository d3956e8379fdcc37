/** The strip "If the power fails" answers to the hand: a handle along its time axis, play, pause, step, and which run is
 * played on it. */
import { type CSSProperties, type JSX, useEffect, useMemo, useRef } from "react";
import type { Assessment } from "../../hydraulics/index.ts";
import type { SheetLayout } from "../scene/layout.ts";
import { isMoving, stripAxis, stripPlot } from "../scene/strip.ts";
import { pxOfMm } from "../sheet/transform.ts";
import { formatTime } from "../sheet/units.ts";
import { backToRunning } from "../state/view.ts";
import { PlayedChoice } from "./PlayedChoice.tsx";
import { playedRun } from "./playedRun.ts";
import { useDesk, useLatest, useProgram } from "./useDesk.ts";

/** s that the whole of a run takes to play, however long it was: the axis is stretched, and so is this. */
const playFor = 16;

export function StripControls({
  layout,
  assessment,
}: {
  readonly layout: SheetLayout;
  readonly assessment: Assessment | null;
}): JSX.Element | null {
  const { desk, results } = useProgram();
  const moment = useDesk((state) => state.view.moment);
  const playing = useDesk((state) => state.view.playing);
  const played = useDesk((state) => state.view.played);
  const run = useMemo(() => playedRun(assessment, played), [assessment, played]);
  const usable = run !== null && isMoving(run) && layout.strip !== null;
  const current = useLatest(run);

  // An edit may take away what was played: the fault's part, or the cut that a restart follows.
  useEffect(() => {
    const known = results.get();
    if (played === null || run !== null || known?.section !== desk.get().section || known.depth === "quick") return;
    if (played.what !== "fault" || known.surveyed) desk.look(backToRunning);
  }, [played, run, desk, results]);
  const dragging = useRef(false);

  useEffect(() => {
    if (!playing || !usable) return;
    let frame = 0;
    let before = performance.now();
    const step = (time: number): void => {
      const now = current.current;
      if (!now) return;
      const axis = stripAxis(now);
      const share = axis.shareAt(desk.get().view.moment ?? 0) + (time - before) / 1000 / playFor;
      before = time;
      desk.look((view) => ({ ...view, moment: axis.timeAt(Math.min(share, 1)), playing: share < 1 }));
      frame = requestAnimationFrame(step);
    };
    frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(frame);
  }, [playing, usable, desk, current]);

  const choice = <PlayedChoice layout={layout} assessment={assessment} run={run} />;
  if (!usable || !run || !layout.strip) return choice;
  const axis = stripAxis(run);
  const plot = stripPlot(layout.strip);
  const events = run.events.map((event) => event.time);
  const place: CSSProperties = {
    left: pxOfMm(plot.x),
    top: pxOfMm(plot.y),
    width: pxOfMm(plot.width),
    height: pxOfMm(plot.height + 6),
  };
  const set = (time: number): void =>
    desk.look((view) => ({ ...view, moment: Math.min(Math.max(time, 0), run.duration), playing: false }));
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
    set(next ?? (ahead ? run.duration : 0));
  };
  const press = (): void => {
    const still = window.matchMedia("(prefers-reduced-motion: reduce)").matches;
    // Without motion a press goes from event to event.
    if (still) return toEvent(true);
    desk.look((view) => ({
      ...view,
      playing: !view.playing,
      moment: view.moment === null || view.moment >= run.duration ? 0 : view.moment,
    }));
  };
  const now = run.events.filter((event) => moment !== null && event.time <= moment + 1e-6).at(-1);
  return (
    <>
      {choice}
      <div
        className="on-picture"
        role="slider"
        tabIndex={0}
        aria-label={`Time after ${run.since}`}
        aria-valuemin={0}
        aria-valuemax={Math.round(run.duration)}
        aria-valuenow={Math.round(moment ?? 0)}
        aria-valuetext={
          moment === null
            ? "the running state"
            : `${formatTime(moment)} after ${run.since}${now ? `: ${now.text}` : ""}`
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
            ["End", () => set(run.duration)],
            [" ", press],
            ["Enter", press],
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
        <button type="button" className="word" onClick={press}>
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
        {layout.narrow && moment === null && played === null ? null : (
          <button
            type="button"
            className="word"
            aria-label="Running"
            disabled={moment === null && played === null}
            title="Back to the running state"
            onClick={() => desk.look(backToRunning)}
          >
            {layout.narrow ? "Run" : "Running"}
          </button>
        )}
      </div>
    </>
  );
}
