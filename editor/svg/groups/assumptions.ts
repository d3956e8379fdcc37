import { cloggingOf, mediaOf, type Pump, type Vessel } from "../../../hydraulics/index.ts";
import { type Drawing, nameOf } from "../../scene/drawing.ts";
import { formatLevelUnit, formatTemperature, levelUnit } from "../../sheet/units.ts";
import type { TableGroup } from "../tableColumn.ts";
import { paragraph } from "./cells.ts";
import type { Numbers } from "./group.ts";

export function assumptionsGroup(drawing: Drawing, _: Numbers, width: number): TableGroup {
  return {
    key: "assumptions",
    title: "Assumed",
    items: assumptions(drawing).map((each) => paragraph(each, width, { fill: "soft" })),
  };
}

function assumptions({ site, system, parts }: Drawing): readonly string[] {
  const law = site.friction === "darcy-weisbach" ? "Darcy-Weisbach" : "Hazen-Williams";
  const unit = levelUnit(system) === "m" ? "metres" : "feet";
  const names = (of: readonly (Pump | Vessel)[]): string => of.map(nameOf).join(", ");
  const standIns = parts.filter((part): part is Pump => part.kind === "pump" && part.curve === undefined);
  const vessels = parts.filter((part): part is Vessel => part.kind === "vessel" && mediaOf(part).length > 0);
  const clean = vessels.filter((vessel) => cloggingOf(vessel) === 1);
  const clogged = vessels.filter((vessel) => cloggingOf(vessel) !== 1);
  return [
    `Running state: friction by ${law}, water at ${formatTemperature(site.waterTemperature, system)}; loss is friction with fittings, bends and ends.`,
    `Levels in ${unit} over the datum, ground at ${formatLevelUnit(site.groundLevel, system)}; heights and lengths at one scale.`,
    ...(parts.some((part) => part.kind === "pond")
      ? ["The ponds' levels with the pumps running are given, not found."]
      : []),
    ...(standIns.length > 0
      ? [`A parabola between greatest lift and greatest flow stands in for the curve of ${names(standIns)}.`]
      : []),
    ...(clean.length > 0 ? [`Media taken as clean: ${names(clean)}.`] : []),
    ...clogged.map(
      (vessel) => `Media of ${nameOf(vessel)} taken to lose ${cloggingOf(vessel)} times as much as clean.`,
    ),
    ...(vessels.length > 0 ? ["A filled vessel's weight is stone and water, without the vessel itself."] : []),
  ];
}
