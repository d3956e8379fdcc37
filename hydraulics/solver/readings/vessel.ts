/** A vessel's reading: its level, what its outlets carry, and what its media do. */
import { mediaOf } from "../../document/defaults.ts";
import { oneLevel } from "../../document/limits.ts";
import type { Vessel } from "../../document/section.ts";
import { bedSlices, bedTop, planArea, waterVolume } from "../../document/volumes.ts";
import { settlingDiameter } from "../../formulas/stokes.ts";
import { stoneDensity } from "../../formulas/stoneDensity.ts";
import type { BodyModel } from "../../network/network.ts";
import { capacityOf, outletsOf } from "../outlets.ts";
import { atRest, settle } from "../rest.ts";
import { restingLevel } from "../restingLevel.ts";
import type { VesselReading } from "../running.ts";
import type { Steady } from "../steady.ts";
import type { Fluid } from "./fluid.ts";
import type { OpeningFlow } from "./inflows.ts";

export function vesselReading(
  state: Steady,
  model: BodyModel,
  vessel: Vessel,
  inflows: readonly OpeningFlow[],
  fluid: Fluid,
): VesselReading {
  const level = state.system.head[model.surface] as number;
  const overflow = Math.max(0, settle(model.rim.Q));
  const overtops = overflow > 0;
  const mine = inflows.filter((flow) => flow.body === vessel.id);
  const inflow = mine.reduce((sum, flow) => sum + Math.max(0, flow.into), 0);
  const outlets = outletsOf(state, vessel);
  const capacity = capacityOf(state, vessel, outlets);
  const area = planArea(vessel);
  const shown = overtops ? vessel.rimLevel : level;
  const volume = waterVolume(vessel, shown);
  const gross = area * (vessel.rimLevel - vessel.baseLevel);
  const slices = bedSlices(vessel);
  const stone = slices.reduce((sum, { from, to, porosity }) => sum + (to - from) * area * (1 - porosity), 0);
  const upflow = greatestUpflow(mine, vessel, shown) / area;
  const bottom = model.column[0]?.node;
  return {
    level: shown,
    freeboard: vessel.rimLevel - shown,
    overtops,
    overflow,
    inflow,
    returnCapacity: capacity.flow,
    returnMargin: inflow > atRest ? capacity.flow / inflow : null,
    control: capacity.control,
    upflow,
    mediaLoss: bottom === undefined ? 0 : (state.system.head[bottom] as number) - level,
    waterVolume: volume,
    grossVolume: gross,
    filledMass: stone * stoneDensity + volume * fluid.density,
    turnover: inflow > atRest ? (inflow * 3600) / gross : null,
    retention: inflow > atRest ? volume / inflow : null,
    wettedSurface: slices.reduce(
      (sum, { from, to, grain, porosity }) =>
        sum + (Math.max(0, Math.min(to, shown) - from) * area * 6 * (1 - porosity)) / grain,
      0,
    ),
    settlingDiameter:
      upflow > 0 ? settlingDiameter(upflow, { viscosity: fluid.dynamic, density: fluid.density }) : null,
    restingLevel: restingLevel(state, vessel),
  };
}

/** m³/s, the greatest upward flow in a vessel's stone, or where there is none anywhere in its water: what enters below
 * a level, net (design notes, section 5). */
function greatestUpflow(flows: readonly OpeningFlow[], vessel: Vessel, level: number): number {
  const top = mediaOf(vessel).length > 0 ? bedTop(vessel) : vessel.rimLevel;
  return settle(Math.max(0, ...flowsUpThrough(flows, Math.min(level, top))));
}

/** m³/s upward past each level of openings under a level, from below: what has entered up to there, net. Of several at
 * one level all count: what comes in by one and leaves by the other rises nowhere. */
export function flowsUpThrough(flows: readonly OpeningFlow[], level: number): readonly number[] {
  const under = flows.filter((flow) => flow.level < level).sort((a, b) => a.level - b.level);
  let sum = 0;
  return under.flatMap((flow, k) => {
    sum += flow.into;
    const next = under[k + 1];
    return next && next.level - flow.level < oneLevel ? [] : [sum];
  });
}
