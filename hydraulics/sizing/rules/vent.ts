import { ventEnd } from "../../document/defaults.ts";
import { pipeLine, placeAt } from "../../document/geometry.ts";
import type { Section, Vent } from "../../document/section.ts";
import type { RunningState } from "../../solver/running.ts";
import { judged, type Rule } from "./rule.ts";

export function ventRules(section: Section, vent: Vent, running: RunningState): readonly Rule[] {
  const reading = running.vents.get(vent.id);
  const pipe = section.parts.get(vent.on.pipe);
  if (!reading || pipe?.kind !== "pipe") return [];
  const end = [pipe.to, pipe.from].find((each) => "part" in each && section.parts.get(each.part)?.kind === "vessel");
  const vessel = end && "part" in end ? section.parts.get(end.part) : undefined;
  if (vessel?.kind !== "vessel") return [];
  const level = running.vessels.get(vessel.id)?.level;
  const tee = placeAt(pipeLine(section, pipe), vent.on.at)[1];
  return [
    judged({
      code: "vent-tee",
      part: vent.id,
      rule: "The breather's tee stands above the vessel's water",
      least: 1e-6,
      most: null,
      quantity: "length",
      has: level === undefined ? null : tee - level,
      source: "common practice",
      where: "no source; a hobby pond diary keeps its vessel full so",
    }),
    judged({
      code: "vent-end",
      part: vent.id,
      rule: "Its open end stands above the vessel's rim",
      least: 0.15,
      most: null,
      quantity: "length",
      has: ventEnd(vent, tee) - vessel.rimLevel,
      source: "published",
      where: "ASSE 1001 (vacuum breakers): 6 in above the flood-level rim",
    }),
  ];
}
