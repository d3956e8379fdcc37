/** The strip's title, which can be pressed: which run is played on it. A list of the platform's own, so that keys and
 * fingers work as anywhere, laid over the words that the sheet has there (the printed sheet has only those). */
import type { CSSProperties, JSX } from "react";
import { type Assessment, partId } from "../../hydraulics/index.ts";
import type { SheetLayout } from "../scene/layout.ts";
import { letters } from "../scene/letters.ts";
import { faultPlayed, type PlayedRun } from "../scene/played.ts";
import { stripTitle, stripTitleBox } from "../scene/strip.ts";
import { pxOfMm } from "../sheet/transform.ts";
import { type Played, play } from "../state/view.ts";
import "./PlayedChoice.css";
import { useDesk, useProgram } from "./useDesk.ts";
import { useReducedMotion } from "./useReducedMotion.ts";

export interface PlayedChoiceProps {
  readonly layout: SheetLayout;
  readonly assessment: Assessment | null;
  /** what the strip shows now; null while it is sought */
  readonly run: PlayedRun | null;
}

export function PlayedChoice({ layout, assessment, run }: PlayedChoiceProps): JSX.Element | null {
  const { desk } = useProgram();
  const played = useDesk((state) => state.view.played);
  const still = useReducedMotion();
  if (!layout.strip || !assessment?.powerCut) return null;
  const box = stripTitleBox(layout.strip, stripTitle(layout, run, true));
  const { narrow } = layout;
  const place: CSSProperties = {
    left: pxOfMm(box.x) - 4,
    top: pxOfMm(box.y),
    width: pxOfMm(box.width) + 22,
    height: pxOfMm(box.height),
  };
  const choose = (key: string): void => {
    if (key === "survey") return desk.look((view) => ({ ...view, slip: "faults" }));
    const wanted = key === "cut" ? null : readKey(key);
    if (wanted === undefined) return;
    desk.look((view) =>
      wanted === null ? { ...view, played: null, moment: null, playing: false } : play(view, wanted, !still),
    );
  };
  return (
    <div className="played-choice" style={place}>
      <select
        aria-label="What the strip plays"
        title="Play a start or a fault instead"
        style={{ fontSize: pxOfMm(letters.name) }}
        value={keyOf(played)}
        onChange={(event) => choose(event.target.value)}
      >
        <option value="cut">If the power fails</option>
        {assessment.starts ? <option value="startUp">At the first start</option> : null}
        {assessment.starts?.restart ? (
          <option value="restart">{narrow ? "Power back" : "When the power comes back"}</option>
        ) : null}
        <optgroup label="If one thing fails">
          {assessment.faults.map((fault) => (
            <option key={`${fault.fault} ${fault.part}`} value={keyOf({ what: "fault", ...fault })}>
              {(narrow ? faultPlayed(fault).short : undefined) ?? faultPlayed(fault).title}
            </option>
          ))}
          {played?.what === "fault" && run === null ? <option value={keyOf(played)}>Being tried</option> : null}
          <option value="survey">Try every fault …</option>
        </optgroup>
      </select>
      <span aria-hidden="true" className="played-mark" />
    </div>
  );
}

const keyOf = (played: Played | null): string =>
  played === null ? "cut" : played.what === "fault" ? `fault ${played.fault} ${played.part ?? ""}` : played.what;

function readKey(key: string): Played | undefined {
  if (key === "startUp" || key === "restart") return { what: key };
  const [word, fault, part] = key.split(" ");
  if (word !== "fault" || !fault) return undefined;
  return { what: "fault", fault, part: part ? partId(part) : null };
}
