import { formatMoney, formatTime } from "../../sheet/units.ts";
import { showQuantity } from "../quantity.ts";
import { figure, type Given, line, noReadings, type Readings, whole } from "./reading.ts";

export function pumpReadings({ section, assessment, running, part, units }: Given<"pump">): Readings {
  const r = running.pumps.get(part.id);
  if (!r) return noReadings;
  const lines = [
    line("Delivers", showQuantity("flow", r.flow, units)),
    line("At a head of", showQuantity("head", r.head, units)),
  ];
  if (r.state === "delivers" && r.flowRange[1] > r.flowRange[0])
    lines.push(
      line(
        "Likely between",
        `${showQuantity("flow", r.flowRange[0], units)} and ${showQuantity("flow", r.flowRange[1], units)}`,
      ),
    );
  if (r.straightLineFlow !== null)
    lines.push(line("By a straight curve it would", showQuantity("flow", r.straightLineFlow, units)));
  if (r.shareOfGreatest !== null) lines.push(line("Share of the greatest flow", `${whole(r.shareOfGreatest * 100)} %`));
  lines.push(line("Power to the water", `${figure(r.hydraulicPower, 3)} W`));
  if (r.efficiency !== null) lines.push(line("Wire to water", `${figure(r.efficiency * 100, 2)} %`));
  if (r.yearlyCost !== null) lines.push(line("Cost of a year", formatMoney(r.yearlyCost, section.site.currency ?? "")));
  if (r.lowestSuction !== null)
    lines.push(line("Lowest pressure before it", showQuantity("head", r.lowestSuction, units)));
  const start = assessment.starts?.startUp;
  if (start && !start.failedAt && r.state !== "off" && r.state !== "loose") {
    const dry = start.pumpsDry.get(part.id);
    lines.push(line("At the first start", dry === undefined ? "stays in water" : `runs dry after ${formatTime(dry)}`));
  }
  const notes: string[] = [];
  if (r.straightLineFlow !== null)
    notes.push(
      "The curve is an assumption: the box states only the greatest flow and the greatest head. The truth may lie on either side of the two.",
    );
  notes.push("Mains electricity near water: residual-current protection, a licensed electrician, the local code.");
  return { aside: stateWords[r.state], lines, notes };
}

const stateWords = {
  delivers: "delivers",
  shutOff: "lifts, but no water flows",
  dry: "runs dry",
  off: "off",
  loose: "no pipe",
  beyondCurve: "beyond its curve",
} as const;
