/** Pumps: a node on either side, the curve between them, and where a pump stands in the water, its intake. */
import { makersFlow, outletBoreOf, pumpSpeed, pumpStoppedK } from "../document/defaults.ts";
import type { PartId, Pump } from "../document/section.ts";
import type { Loss } from "../elements/element.ts";
import { minorLoss } from "../elements/minorLoss.ts";
import { pump as pumpElement } from "../elements/pump.ts";
import { boreArea } from "../formulas/circle.ts";
import { mostThrough } from "../solver/links/link.ts";
import { MouthLink } from "../solver/links/mouthLink.ts";
import { PumpLink } from "../solver/links/pumpLink.ts";
import type { SystemNode } from "../solver/system.ts";
import { bottomIn } from "./bodies.ts";
import { bodyIn, type Draft, nodeAt } from "./draft.ts";
import { scaled, seamless } from "./laws.ts";
import type { PumpModel } from "./network.ts";

/** m; where no pipe says how wide a stopped pump's outlet is */
const outletUnsaid = 0.025;

export function addPumps(draft: Draft): void {
  const fed = new Set<PartId>();
  const widest = new Map<PartId, number>();
  for (const { from, to, pipe } of draft.layout.pipes.values()) {
    if (to.kind === "pump") fed.add(to.pump);
    for (const end of [from, to])
      if (end.kind === "pump") widest.set(end.pump, Math.max(widest.get(end.pump) ?? 0, pipe.bore));
  }
  for (const part of draft.section.parts.values()) {
    if (part.kind === "pump")
      draft.pumps.set(part.id, pumpModel(draft, part, fed.has(part.id), widest.get(part.id) ?? 0));
  }
}

function pumpModel(draft: Draft, pump: Pump, isFed: boolean, widestPipe: number): PumpModel {
  const head = pump.in === undefined ? pump.z : (draft.nodes[bodyIn(draft, pump.in).surface] as SystemNode).head;
  const inlet = draft.addNode({ part: pump.id, head, store: null });
  const outlet = draft.addNode({ part: pump.id, head: head + 0.5, store: null });
  const loose = pump.in === undefined && !isFed;
  const outletBore = outletBoreOf(draft.section, pump) ?? outletUnsaid;
  const running = draft.options.pumps === "running" && pumpSpeed(pump) > 0 && !loose;
  const intake =
    pump.in === undefined
      ? null
      : draft.add(
          new MouthLink(pump.id, nodeAt(draft, pump.in, pump.z), inlet, {
            axis: pump.z,
            edge: Math.max(pump.z, bottomIn(draft)(pump.in)),
            taking: seamless,
            giving: seamless,
          }),
        );
  const law = running ? runningLaw(draft, pump) : stoppedLaw(pump, outletBore);
  // One that draws air begins at rest: nothing ties what stands in its line, and no guess may leave it hanging.
  if (intake && running && head > intake.mouth.edge) intake.begin(greatestFlow(pump) / 2);
  // A stopped one begins with a fair flow as pipes do: at rest its law is flat, and a step from there goes anywhere.
  const guess = running ? greatestFlow(pump) / 2 : 0.3 * boreArea(outletBore);
  const link = loose ? null : draft.add(new PumpLink(pump.id, inlet, outlet, law, running, guess));
  // An intake has hardly any loss and would take any step, however far. The outlet's bore costs a running pump no head,
  // so that a wrong one must not hold the flow back: its curve counts, and what 1,000 m of head would push through it.
  for (const bounded of [intake, link]) {
    if (!bounded) continue;
    bounded.most = mostThrough(boreArea(Math.max(outletBore, widestPipe)));
    if (running) bounded.over = greatestFlow(pump) + 1000 / law.slope(greatestFlow(pump));
  }
  return { pump, inlet, outlet, link, intake, loose, outletBore };
}

const stoppedLaw = (pump: Pump, bore: number): Loss =>
  minorLoss.build({ K: Math.max(pumpStoppedK(pump), 1e-6), D: bore });

function runningLaw({ options, scatter }: Draft, pump: Pump): Loss {
  const speed = pumpSpeed(pump);
  const law = pumpElement.build(
    pump.curve
      ? { curve: pump.curve, speed }
      : {
          maxFlow: pump.maxFlow as number,
          maxHead: pump.maxHead as number,
          speed,
          straight: options.straightCurves ?? false,
        },
  );
  return scaled(law, scatter.head);
}

/** m³/s at no head, at the pump's speed */
export const greatestFlow = (pump: Pump): number => makersFlow(pump) * pumpSpeed(pump);
