/** What a vessel's outlets carry together, by the level that stands in it: from where they stop to the rim.
 * The same arithmetic as the return capacity of the report, which is this curve at the rim less the freeboard. */
import { siteOf } from "../document/defaults.ts";
import type { PartId, Section } from "../document/section.ts";
import { capacityOf, outletsOf } from "../solver/outlets.ts";
import { restingLevel } from "../solver/restingLevel.ts";
import type { Control } from "../solver/running.ts";
import { solveSteady } from "../solver/steady.ts";

export interface ReturnPoint {
  readonly level: number;
  /** m³/s */
  readonly flow: number;
  readonly control: Control;
}

/** Empty where there is no running state, no vessel or nothing that leads out of it. */
export function returnCurve(section: Section, id: PartId, points = 12): readonly ReturnPoint[] {
  const vessel = section.parts.get(id);
  const state = solveSteady(section);
  if (vessel?.kind !== "vessel" || !state.solved.converged) return [];
  const outlets = outletsOf(state, vessel);
  if (outlets.length === 0) return [];
  const low = Math.min(restingLevel(state, vessel) ?? vessel.baseLevel, vessel.rimLevel);
  const rated = vessel.rimLevel - siteOf(section).freeboard;
  const levels = [
    ...Array.from({ length: points }, (_, k) => low + ((vessel.rimLevel - low) * k) / (points - 1)),
    ...(rated > low && rated < vessel.rimLevel ? [rated] : []),
  ].sort((a, b) => a - b);
  return levels.map((level) => {
    // Capacity is asked for at the rim less the freeboard: another freeboard is another level.
    const network = {
      ...state.network,
      section: { ...section, site: { ...section.site, freeboard: vessel.rimLevel - level } },
    };
    return { level, ...capacityOf({ ...state, network }, vessel, outlets) };
  });
}
