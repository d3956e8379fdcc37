/** A layout in two or three sentences, in the units shown: what will be drawn before it is drawn. */
import type { Pond, Vessel } from "../../../hydraulics/index.ts";
import { formatDimension, formatLength, formatNumber, type UnitSystem } from "../../sheet/units.ts";
import { deliveredOf, verdictOf } from "../verdict.ts";
import type { Drawable } from "./laidOut.ts";

export function layoutWords({ section, assessment, sizes }: Drawable, units: UnitSystem): string {
  const parts = [...section.parts.values()];
  const pond = parts.find((part): part is Pond => part.kind === "pond");
  const vessel = parts.find((part): part is Vessel => part.kind === "vessel");
  if (!pond || !vessel) return "";
  const length = (metres: number): string => formatLength(metres, units);
  const { plan } = vessel;
  const across =
    plan.shape === "round" ? `${length(plan.diameter)} across` : `${length(plan.width)} by ${length(plan.length)}`;
  const stone = (vessel.media ?? []).reduce((sum, { depth }) => sum + depth, 0);
  const many = sizes.returns > 1 ? `${sizes.returns} returns` : "return";
  const [reading] = assessment.running.converged ? assessment.running.vessels.values() : [];
  const carries = reading?.returnMargin
    ? `, of which the returns carry ${formatNumber(reading.returnMargin, 2, 2)} times`
    : "";
  const sold = (name: string): string => (sizes.series.material === "pvc" && /^\d+$/.test(name) ? `${name} mm` : name);
  const looks = assessment.findings.length;
  return [
    `A pond of ${length(pond.width)} by ${length(pond.length)}, ${formatDimension(pond.waterLevel - pond.bedLevel, units)} deep.`,
    `A filter ${across}, ${length(vessel.rimLevel - vessel.baseLevel)} high, with ${formatDimension(stone, units)} of stone.`,
    `Supply ${sold(sizes.supply.name)}, ${many} ${sold(sizes.return.name)}: ${sizes.series.name}.`,
    `Delivers ${deliveredOf(assessment.running, units)}${carries}.`,
    `${verdictOf(section, assessment, units)?.words ?? ""}; ${looks === 0 ? "nothing" : looks} to look at.`,
  ].join(" ");
}
