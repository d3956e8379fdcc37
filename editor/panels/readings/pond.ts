import { showQuantity } from "../quantity.ts";
import { type Given, line, noReadings, type Readings } from "./reading.ts";

export function pondReadings({ assessment, running, part, units }: Given<"pond">): Readings {
  const r = running.ponds.get(part.id);
  const cut = assessment.powerCut?.ponds.get(part.id);
  if (!r) return noReadings;
  const lines = [
    line("Volume", showQuantity("volume", r.volume, units)),
    line("Net inflow", showQuantity("flow", r.netInflow, units)),
    line("Lost to the ground", showQuantity("flow", r.lossToGround, units)),
  ];
  if (cut)
    lines.push(
      line("Highest after a power cut", showQuantity("level", cut.highestLevel, units)),
      line("In the end it stands at", showQuantity("level", cut.finalLevel, units)),
    );
  const first = assessment.starts?.startUp.ponds.get(part.id);
  if (first)
    lines.push(
      line("Lowest at the first start", showQuantity("level", first.lowestLevel, units)),
      line("Filling the vessels takes", showQuantity("volume", first.litresLent / 1000, units)),
    );
  return {
    aside: cut?.overflows ? "overflows" : "",
    lines,
    notes: ["Open water and small children: see that it is fenced or covered."],
  };
}
