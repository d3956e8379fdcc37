/** A pump's reading: where it stands on its curve, what it draws and costs. */
import { makersFlow, pumpSpeed, siteOf } from "../../document/defaults.ts";
import type { PartId } from "../../document/section.ts";
import { g } from "../../formulas/gravity.ts";
import type { PumpModel } from "../../network/network.ts";
import { greatestFlow } from "../../network/pumps.ts";
import { outside } from "../links/link.ts";
import { atRest, settle } from "../rest.ts";
import type { PipeReading, PumpReading } from "../running.ts";
import type { Steady } from "../steady.ts";

export interface Delivered {
  readonly range: ReadonlyMap<PartId, readonly [number, number]>;
  readonly straight: ReadonlyMap<PartId, number>;
}

export function pumpReading(
  state: Steady,
  model: PumpModel,
  pipes: ReadonlyMap<PartId, PipeReading>,
  delivered: Delivered,
  density: number,
): PumpReading {
  const { pump, link, intake } = model;
  const site = siteOf(state.network.section);
  const flow = settle(link?.Q ?? 0);
  const running = link?.running ?? false;
  const head = running && link ? -link.law.loss(Math.max(0, flow)) : 0;
  const hydraulicPower = running ? density * g * Math.max(0, flow) * head : 0;
  const watts = pump.watts ?? null;
  const greatest = greatestFlow(pump);
  const makers = makersFlow(pump);
  const surface = intake && intake.i !== outside ? (state.system.head[intake.i] as number) : null;
  const dry = running && surface !== null && surface <= pump.z + 1e-6 && flow <= atRest;
  const snatches = running && intake?.state === "edge";
  const suctions: number[] = [];
  for (const pipe of state.network.pipes.values()) {
    if (pipe.to.kind !== "pump" || pipe.to.pump !== pump.id) continue;
    const lowest = pipes.get(pipe.pipe.id)?.lowestPressureHead;
    if (typeof lowest === "number") suctions.push(lowest);
  }
  return {
    flow,
    head,
    hydraulicPower,
    flowRange: delivered.range.get(pump.id) ?? [flow, flow],
    shareOfGreatest: makers > 0 && running ? flow / makers : null,
    // Where the flow drives the pump (its head is negative, far past its curve) it is no pump to be rated.
    efficiency: watts !== null && watts > 0 && running && head >= 0 ? hydraulicPower / watts : null,
    yearlyCost: watts !== null && running ? (watts / 1000) * 24 * 365 * site.tariff : null,
    straightLineFlow: delivered.straight.get(pump.id) ?? null,
    state: model.loose
      ? "loose"
      : pumpSpeed(pump) <= 0
        ? "off"
        : dry || snatches
          ? "dry"
          : flow <= atRest
            ? "shutOff"
            : flow > greatest
              ? "beyondCurve"
              : "delivers",
    lowestSuction: suctions.length > 0 ? Math.min(...suctions) : null,
  };
}
