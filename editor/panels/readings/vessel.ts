import { cloggingOf, foot, inch, type Vessel } from "../../../hydraulics/index.ts";
import { sentencesOf } from "../../sheet/sentence.ts";
import { formatNumber, formatTime, type UnitSystem } from "../../sheet/units.ts";
import { showMargin, showQuantity } from "../quantity.ts";
import { controlWord } from "./controlWord.ts";
import { figure, type Given, line, noReadings, type Reading, type Readings } from "./reading.ts";

export function vesselReadings({ section, assessment, running, part, units }: Given<"vessel">): Readings {
  const r = running.vessels.get(part.id);
  const cut = assessment.powerCut?.vessels.get(part.id);
  if (!r) return noReadings;
  const lines = [
    line("Water, running", showQuantity("level", r.level, units)),
    line("Freeboard", showQuantity("length", r.freeboard, units)),
    line("Inflow", showQuantity("flow", r.inflow, units)),
    line("Its outlets can carry", showQuantity("flow", r.returnCapacity, units)),
  ];
  if (r.returnMargin !== null) lines.push(line("Margin", showMargin(r.returnMargin)));
  if (r.control !== "none") lines.push(line("Controlled at", controlWord(r.control)));
  if (r.restingLevel !== null) lines.push(line("Its outlets stop at", showQuantity("level", r.restingLevel, units)));
  lines.push(
    line(
      "Upflow",
      units === "metric" ? `${figure(r.upflow * 3600, 2)} m/h` : `${figure((r.upflow * 3600) / foot, 2)} ft/h`,
    ),
    ...stoneLosses(part, r.mediaLoss, units),
    line("Water in it", showQuantity("volume", r.waterVolume, units)),
    line("Gross volume", showQuantity("volume", r.grossVolume, units)),
    line("Filled weight", showQuantity("mass", r.filledMass, units)),
  );
  if (r.turnover !== null) lines.push(line("Vessel volumes an hour", figure(r.turnover, 2)));
  if (r.retention !== null) lines.push(line("Retention time", `${figure(r.retention / 60, 2)} min`));
  if (r.settlingDiameter !== null) lines.push(line("Settles grains over", showGrain(r.settlingDiameter, units)));
  lines.push(
    line(
      "Wetted stone",
      units === "metric" ? `${figure(r.wettedSurface, 3)} m²` : `${figure(r.wettedSurface / foot ** 2, 3)} ft²`,
    ),
  );
  if (cut)
    lines.push(
      line("After a power cut", showQuantity("level", cut.finalLevel, units)),
      line("Water that leaves it", showQuantity("volume", cut.litresOut / 1000, units)),
    );
  const first = assessment.starts?.startUp.vessels.get(part.id);
  if (first)
    lines.push(
      line(
        "Its outlet runs, from empty",
        first.timeToReturn === null ? "never" : `after ${formatTime(first.timeToReturn)}`,
      ),
    );
  const notes = [
    ...(cut ? [sentencesOf(section, units)(cut.reason)] : []),
    "Needs a firm, level footing for its filled weight (stone and water, without the vessel).",
  ];
  return { aside: cut ? verdictWord(cut.verdict, cut.heldBy) : "", lines, notes };
}

/** Of an inch what the finding makes of its two digits of a millimetre. */
const showGrain = (grain: number, units: UnitSystem): string =>
  units === "metric"
    ? `${figure(grain * 1000, 2)} mm`
    : showQuantity("grain", Number((grain * 1000).toPrecision(2)) / 1000, units);

/** Ergun's law goes by the clogging factor, so at this flow the loss of clean and of clogged stone follow from the one
 * that was found. */
function stoneLosses(vessel: Vessel, loss: number, units: UnitSystem): readonly Reading[] {
  const clogging = cloggingOf(vessel);
  const clean = loss / clogging;
  const show = (each: number): string => showSmallHead(each, clean, units);
  const now = line("Loss in the stone", show(loss));
  // A millionth of a metre is the solver's rounding: no water rises through this stone.
  if (Math.abs(loss) < 1e-6) return [now];
  return [
    now,
    ...(clogging === 1 ? [] : [line("Clean, at this flow", show(clean))]),
    line("Clogged ten times, at this flow", show(10 * clean)),
  ];
}

/** Heads to be read one beside the other, all in millimetres or inches where the least of them is small. */
const showSmallHead = (head: number, least: number, units: UnitSystem): string => {
  if (Math.abs(least) < 1e-6 || Math.abs(least) >= 0.01) return showQuantity("head", head, units);
  return units === "metric" ? `${formatNumber(head * 1000, 2, 3)} mm` : `${formatNumber(head / inch, 2, 3)} in`;
};

const verdictWord = (verdict: string, heldBy: string): string =>
  verdict === "drains" ? "drains" : heldBy === "movingPart" ? "held by a moving part" : "held by geometry";
