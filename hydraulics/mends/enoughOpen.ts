/** How far a vent has to be opened to be ample in the power cut, as it stands and with the bore that it has.
 *
 * The air that it draws goes with its passage alone (the suction is that of the closed vent), so what it lacks is what
 * its passage has to grow by. */
import type { Assessed } from "../assess.ts";
import { ventOpen } from "../document/defaults.ts";
import type { Vent } from "../document/section.ts";
import { ventArea } from "../formulas/ventPassage.ts";

/** over the passage that is just ample, as for a bore (`ampleVent.ts`) */
const spare = 1.05;
/** a valve is set by eye, to a tenth */
const tenths = 10;

/** The fraction open, a tenth or more of it; null where even fully open it is not ample, or nothing is known of it. */
export function enoughOpen({ state, powerCut }: Assessed, vent: Vent): number | null {
  const model = state.network.vents.get(vent.id);
  const air = powerCut?.vents.get(vent.id)?.airToWater ?? null;
  const now = ventOpen(vent);
  if (!model || air === null || air <= 0 || now <= 0) return null;
  const riser = model.endLevel - model.teeLevel;
  const wanted = (ventArea(vent.bore, now, riser) * spare) / air;
  for (let tenth = Math.floor(now * tenths) + 1; tenth <= tenths; tenth++)
    if (ventArea(vent.bore, tenth / tenths, riser) >= wanted) return tenth / tenths;
  return null;
}

/** `fully`, `to 60 %` */
export const openWords = (open: number): string => (open >= 1 ? "fully" : `to ${Math.round(open * 100)} %`);
