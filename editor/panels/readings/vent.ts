import { type RunningState, type Section, upToTenth, type Vent } from "../../../hydraulics/index.ts";
import { showQuantity } from "../quantity.ts";
import { figure, type Given, line, noReadings, type Readings } from "./reading.ts";

export function ventReadings({ section, assessment, running, part, units }: Given<"vent">): Readings {
  const r = running.vents.get(part.id);
  const cut = assessment.powerCut?.vents.get(part.id);
  if (!r) return noReadings;
  const lines = [
    line("Tee level", showQuantity("level", r.teeLevel, units)),
    line("Pressure at the tee", showQuantity("head", r.pressureHead, units)),
  ];
  const water = waterAt(section, running, part);
  if (water !== null) lines.push(line("Tee over the vessel's water", showQuantity("head", r.teeLevel - water, units)));
  if (r.spill > 0) lines.push(line("Spills", showQuantity("flow", r.spill, units)));
  if (r.air > 0) lines.push(line("Can pass air", showQuantity("flow", r.air, units)));
  if (cut)
    lines.push(
      line(
        "When the power fails",
        { ample: "ample", marginal: "marginal", tooSmall: "too small", notUsed: "not used" }[cut.rating],
      ),
    );
  if (cut?.airToWater != null) lines.push(line("Air to water", figure(cut.airToWater, 2)));
  const ample = cut?.ampleBore ?? r.ampleBore;
  // Rounded to the nearest it might be told too small.
  if (ample !== null) lines.push(line("A bore that would be ample", showQuantity("bore", upToTenth(ample), units)));
  return {
    aside: { spills: "spills", stands: "water stands in it", drawsAir: "draws air" }[r.state],
    lines,
    notes: [],
  };
}

/** The running level of the vessel that the vent's pipe leads to or from. */
function waterAt(section: Section, running: RunningState, vent: Vent): number | null {
  const pipe = section.parts.get(vent.on.pipe);
  if (pipe?.kind !== "pipe") return null;
  for (const end of [pipe.to, pipe.from]) {
    const level = "part" in end ? running.vessels.get(end.part)?.level : undefined;
    if (level !== undefined) return level;
  }
  return null;
}
