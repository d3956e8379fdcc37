/** The run that the view wants on the strip, out of what has been solved. */
import type { Assessment } from "../../hydraulics/index.ts";
import { cutPlayed, faultPlayed, type PlayedRun, startPlayed } from "../scene/played.ts";
import type { Played } from "../state/view.ts";

/** Null while it is not known, or where the drawing has no such run.
 *  @param exact the assessment is of the very drawing shown: in mid drag a fault's own parts are those of before */
export function playedRun(assessment: Assessment | null, played: Played | null, exact = false): PlayedRun | null {
  if (!assessment) return null;
  if (played === null) return assessment.powerCut && cutPlayed(assessment.powerCut);
  if (played.what === "fault") {
    const { fault, part } = played;
    const found = assessment.faults.find((one) => one.fault === fault && one.part === part);
    if (!found) return null;
    const whole = faultPlayed(found);
    const { fault: _, ...run } = whole;
    return exact ? whole : run;
  }
  const run = assessment.starts?.[played.what];
  return run ? startPlayed(played.what, run) : null;
}
