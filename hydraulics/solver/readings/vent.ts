/** A vent's reading: the pressure at its tee, and what passes. */
import { ventOpen } from "../../document/defaults.ts";
import { velocityHead } from "../../formulas/totalHead.ts";
import { ampleBore } from "../../formulas/ventPassage.ts";
import type { VentModel } from "../../network/network.ts";
import { atRest, settle } from "../rest.ts";
import type { VentReading } from "../running.ts";
import { arriving, gravityVentHead, type Steady, stretchesAt } from "../steady.ts";
import type { Fluid } from "./fluid.ts";

export function ventReading(state: Steady, vent: VentModel, { density }: Fluid): VentReading {
  const rating = state.ratings.get(vent.vent.id);
  const around = stretchesAt(state.network, vent);
  const passing = arriving(around);
  let pressureHead: number;
  if (vent.node < 0) pressureHead = gravityVentHead(state, vent);
  else {
    // Of a cut line the side that the water comes from speaks.
    const cut = vent.airPoint;
    const node = cut && cut.Q < 0 ? cut.j : vent.node;
    pressureHead = (state.system.head[node] as number) - velocityHead(passing / around.area) - vent.teeLevel;
    // Air stands at its tee, whether water comes up to it or not.
    if (cut && cut.state !== "whole") pressureHead = 0;
  }
  const spill = Math.max(0, settle(vent.spill?.Q ?? 0));
  const draws = vent.airPoint?.state === "free" || (vent.node >= 0 && pressureHead < -1e-9 && passing > 0);
  const riser = vent.endLevel - vent.teeLevel;
  return {
    pressureHead,
    state: spill > 0 ? "spills" : draws ? "drawsAir" : "stands",
    spill,
    spillsTo: spill > 0 ? vent.spillsTo : null,
    air: rating?.air ?? 0,
    credited: vent.airPoint !== null && vent.airPoint.state !== "whole",
    teeLevel: vent.teeLevel,
    ampleBore:
      rating && rating.suction > 0 && rating.passing > atRest
        ? ampleBore({ passing: rating.passing, suction: rating.suction, density }, ventOpen(vent.vent), riser)
        : null,
  };
}
