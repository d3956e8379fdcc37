/** The system curve of one pump: the head that the drawing as it stands would need of it at a flow.
 *     H(Q) = H_outlet − H_inlet with Q let through the pump, everything else solved as ever
 *     Q m³/s · H m
 * No formula of its own: the whole network is solved once a flow, so vents that cut in, vessels that rise, media,
 * returns and other pumps (by their own curves) all count, and a vent that becomes ample may put a step into it.
 * Where it meets the pump's curve is the duty point; test/sweep holds the two equal.
 * Source: the definition; the network's laws have theirs.
 * Ours: the pump is given a curve that is all but upright at Q, so that the solver needs no other kind of link;
 * a second solve stands the upright where the first one found the head, which leaves Q exact to about 1e-9 of it. */
import { pumpSpeed } from "../document/defaults.ts";
import type { Part, PartId, Pump, Section } from "../document/section.ts";
import { headOf } from "../elements/pump.ts";
import { greatestFlow } from "../network/pumps.ts";
import { type Steady, type SteadyOptions, solveSteady } from "../solver/steady.ts";

export interface SystemPoint {
  readonly flow: number;
  /** null where the drawing can not pass that flow: its intake runs dry, or nothing was found */
  readonly head: number | null;
}

/** m; half of how far the upright reaches */
const reach = 50;
/** of the flow; half of how far it leans */
const lean = 1e-4;
/** two passes, each a hundred thousand times nearer */
const passes = 2;

export function headNeeded(
  section: Section,
  id: PartId,
  flow: number,
  options: Pick<SteadyOptions, "scatter"> = {},
  from?: Steady,
): { readonly head: number | null; readonly state: Steady | null } {
  const pump = section.parts.get(id);
  if (pump?.kind !== "pump" || !(flow > 0)) return { head: null, state: null };
  let head = 0;
  let near = from;
  for (let pass = 0; pass < passes; pass++) {
    const state = solveSteady(lettingThrough(section, pump, flow, head), {
      ...options,
      ...(near ? { from: near } : {}),
    });
    const model = state.network.pumps.get(id);
    if (!state.solved.converged || !model?.link || model.intake?.state === "edge") return { head: null, state: null };
    head = -model.link.law.loss(model.link.Q);
    if (!(Math.abs(model.link.Q - flow) < 2 * lean * flow)) return { head: null, state: null };
    near = state;
  }
  return { head, state: near ?? null };
}

/** The drawing with a pump that passes this flow at whatever head it takes. */
function lettingThrough(section: Section, pump: Pump, flow: number, head: number): Section {
  const { maxFlow: _flow, maxHead: _head, ...rest } = pump;
  const upright: Pump = {
    ...rest,
    speed: 1,
    curve: [
      [flow * (1 - lean), head + reach],
      [flow * (1 + lean), head - reach],
    ],
  };
  return { ...section, parts: new Map<PartId, Part>(section.parts).set(pump.id, upright) };
}

/** m that a pump lifts at a flow, by the law that the solver uses; null for one that is off or says nothing of itself.
 * @param straight the other reading of the box's two figures */
export function curveHead(pump: Pump, flow: number, straight = false): number | null {
  const speed = pumpSpeed(pump);
  if (!(speed > 0)) return null;
  if (pump.curve) return headOf({ curve: pump.curve, speed }).head(flow);
  const { maxFlow, maxHead } = pump;
  return maxFlow === undefined || maxHead === undefined
    ? null
    : headOf({ maxFlow, maxHead, straight, speed }).head(flow);
}

/** m³/s at which a pump's plot asks the system: from nearly nothing to a little over its greatest flow. */
export function plottedFlows(pump: Pump, points: number): readonly number[] {
  const most = greatestFlow(pump) || greatestFlow({ ...pump, speed: 1 });
  // At no flow at all a line may stand empty; a hundredth of the greatest flow is the static lift.
  return Array.from({ length: points }, (_, k) => most * Math.max(0.01, (1.05 * k) / (points - 1)));
}

/** One point after the other, so that who draws them can stop. */
export function* systemCurve(
  section: Section,
  id: PartId,
  flows: readonly number[],
  options: Pick<SteadyOptions, "scatter"> = {},
): Generator<SystemPoint> {
  let from: Steady | undefined;
  for (const flow of flows) {
    const { head, state } = headNeeded(section, id, flow, options, from);
    from = state ?? undefined;
    yield { flow, head };
  }
}
