/** What the solver knows about one part, as lines for its slip and for the table. */
import type { Assessment, Part, RunningState, Section } from "../../hydraulics/index.ts";
import { formatTime, type UnitSystem } from "../sheet/units.ts";
import { showQuantity } from "./quantity.ts";

export interface Reading {
  readonly label: string;
  readonly value: string;
}

export interface Readings {
  /** beside the name: a regime, a verdict */
  readonly aside: string;
  readonly lines: readonly Reading[];
  /** a formula with its numbers, an assumption, a caution */
  readonly notes: readonly string[];
}

const empty: Readings = { aside: "", lines: [], notes: [] };

export function readingsOf(section: Section, assessment: Assessment | null, part: Part, units: UnitSystem): Readings {
  if (!assessment) return empty;
  const { running } = assessment;
  if (!running.converged)
    return { ...empty, notes: ["The running state could not be found, so there are no figures. See the findings."] };
  return { pond, vessel, pump, pipe, vent, spillway, valve, checkValve, note: none }[part.kind]({
    section,
    assessment,
    running,
    part,
    units,
  });
}

interface Given {
  readonly section: Section;
  readonly assessment: Assessment;
  readonly running: RunningState;
  readonly part: Part;
  readonly units: UnitSystem;
}

const none = (): Readings => empty;

function valve({ running, part, units }: Given): Readings {
  if (part.kind !== "valve") return empty;
  const open = part.open ?? (part.role === "flush" ? 0 : 1);
  const through = running.pipes.get(part.on.pipe);
  return {
    aside: open === 0 ? "shut" : open === 1 ? "open" : `open ${whole(open * 100)} %`,
    lines: through ? [line("Flow in its pipe", showQuantity("flow", through.flow, units))] : [],
    notes: [],
  };
}

function checkValve({ running, part, units }: Given): Readings {
  if (part.kind !== "checkValve") return empty;
  const through = running.pipes.get(part.on.pipe);
  return {
    aside: part.stuckOpen ? "stuck open" : "sound",
    lines: through ? [line("Flow in its pipe", showQuantity("flow", through.flow, units))] : [],
    notes: ["A moving part: debris can hold it open. The verdict says so where it is what holds the water."],
  };
}
const line = (label: string, value: string): Reading => ({ label, value });
const figure = (value: number, digits: number): string => Number(value.toPrecision(digits)).toLocaleString("en-US");
const whole = (value: number): string => Math.round(value).toLocaleString("en-US");

function pipe({ section, running, part, units }: Given): Readings {
  const r = running.pipes.get(part.id);
  if (!r || part.kind !== "pipe") return empty;
  const metre = units === "metric" ? 1 : 0.3048;
  const lines = [
    line("Flow", showQuantity("flow", r.flow, units)),
    line("Velocity", showQuantity("velocity", r.velocity, units)),
    line(`Friction over ${showQuantity("length", r.length, units)}`, showQuantity("head", r.frictionLoss, units)),
    line("Bends, fittings and ends", showQuantity("head", r.fittingLoss, units)),
    line(units === "metric" ? "Loss per metre" : "Loss per foot", showQuantity("head", r.lossPerMetre * metre, units)),
    line("By the other formula", showQuantity("head", r.otherFormulaLoss, units)),
  ];
  if (r.lowestPressureHead !== null)
    lines.push(line("Lowest pressure", showQuantity("head", r.lowestPressureHead, units)));
  if (r.highestPressureHead !== null)
    lines.push(line("Highest pressure", showQuantity("head", r.highestPressureHead, units)));
  if (r.fillRatio !== null) lines.push(line("Runs filled to", `${whole(r.fillRatio * 100)} % of its bore`));
  if (r.froude !== null) lines.push(line("Froude number", `${figure(r.froude, 2)}, ${airWord(r.froude)}`));
  if (r.runs === "gravity" && r.control !== "none") lines.push(line("Controlled at", controlWord(r.control)));
  const hw = (section.site.friction ?? "hazen-williams") === "hazen-williams";
  const formula = hw
    ? "Hazen-Williams: h = 10.67·L·Q^1.852 / (C^1.852·D^4.8704)"
    : "Darcy-Weisbach: h = f·L/D·V²/2g, f by Colebrook-White";
  const numbers = `L ${figure(r.length, 4)} m, Q ${figure(Math.abs(r.flow) * 1000, 4)} L/s, D ${figure(part.bore * 1000, 4)} mm`;
  return {
    aside: `${r.regime}, Re ${whole(Number(Math.abs(r.reynolds).toPrecision(3)))}`,
    lines,
    notes: [`${formula}. ${numbers}.`, ...r.outsideRange],
  };
}

const airWord = (froude: number): string =>
  froude < 0.3 ? "vents itself" : froude < 1 ? "gulps and surges" : "carries its air along";
const controlWord = (control: string): string =>
  ({ inlet: "its inlet", outlet: "its outlet", route: "its route", rim: "the rim", none: "nothing" })[control] ??
  control;

function pump({ assessment, running, part, units }: Given): Readings {
  const r = running.pumps.get(part.id);
  if (!r || part.kind !== "pump") return empty;
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
  if (r.shareOfGreatest !== null) lines.push(line("Share of the greatest flow", `${whole(r.shareOfGreatest * 100)} %`));
  lines.push(line("Power to the water", `${figure(r.hydraulicPower, 3)} W`));
  if (r.efficiency !== null) lines.push(line("Wire to water", `${figure(r.efficiency * 100, 2)} %`));
  if (r.yearlyCost !== null) lines.push(line("Cost of a year", whole(r.yearlyCost)));
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
      `The curve is an assumption from the two figures on the box; with a straight line it would deliver ${showQuantity("flow", r.straightLineFlow, units)}.`,
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

function vessel({ assessment, running, part, units }: Given): Readings {
  const r = running.vessels.get(part.id);
  const cut = assessment.powerCut?.vessels.get(part.id);
  if (!r) return empty;
  const lines = [
    line("Water, running", showQuantity("level", r.level, units)),
    line("Freeboard", showQuantity("length", r.freeboard, units)),
    line("Inflow", showQuantity("flow", r.inflow, units)),
    line("Its outlets can carry", showQuantity("flow", r.returnCapacity, units)),
  ];
  if (r.returnMargin !== null) lines.push(line("Margin", `${figure(r.returnMargin, 2)} ×`));
  if (r.control !== "none") lines.push(line("Controlled at", controlWord(r.control)));
  lines.push(
    line(
      "Upflow",
      units === "metric" ? `${figure(r.upflow * 3600, 2)} m/h` : `${figure((r.upflow * 3600) / 0.3048, 2)} ft/h`,
    ),
    line("Loss in the stone", showQuantity("head", r.mediaLoss, units)),
    line("Water in it", showQuantity("volume", r.waterVolume, units)),
    line("Gross volume", showQuantity("volume", r.grossVolume, units)),
    line("Filled weight", showQuantity("mass", r.filledMass, units)),
  );
  if (r.turnover !== null) lines.push(line("Vessel volumes an hour", figure(r.turnover, 2)));
  if (r.retention !== null) lines.push(line("Retention time", `${figure(r.retention / 60, 2)} min`));
  if (r.settlingDiameter !== null)
    lines.push(line("Settles grains over", `${figure(r.settlingDiameter * 1000, 2)} mm`));
  lines.push(
    line(
      "Wetted stone",
      units === "metric" ? `${figure(r.wettedSurface, 3)} m²` : `${figure(r.wettedSurface / 0.09290304, 3)} ft²`,
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
    ...(cut ? [cut.reason] : []),
    "Needs a firm, level footing for its filled weight (stone and water, without the vessel).",
  ];
  return { aside: cut ? verdictWord(cut.verdict, cut.heldBy) : "", lines, notes };
}

export const verdictWord = (verdict: string, heldBy: string): string =>
  verdict === "drains" ? "drains" : heldBy === "movingPart" ? "held by a moving part" : "held by geometry";

function pond({ assessment, running, part, units }: Given): Readings {
  const r = running.ponds.get(part.id);
  const cut = assessment.powerCut?.ponds.get(part.id);
  if (!r) return empty;
  const lines = [
    line("Volume", showQuantity("volume", r.volume, units)),
    line("Enters less what leaves", showQuantity("flow", r.netInflow, units)),
    line("Lost to the ground", showQuantity("flow", r.lossToGround, units)),
  ];
  if (cut)
    lines.push(
      line("Highest after a power cut", showQuantity("level", cut.highestLevel, units)),
      line("In the end", showQuantity("level", cut.finalLevel, units)),
    );
  const first = assessment.starts?.startUp.ponds.get(part.id);
  if (first)
    lines.push(
      line("Lowest at the first start", showQuantity("level", first.lowestLevel, units)),
      line("Lent to the vessels then", showQuantity("volume", first.litresLent / 1000, units)),
    );
  return {
    aside: cut?.overflows ? "overflows" : "",
    lines,
    notes: ["Open water and small children: see that it is fenced or covered."],
  };
}

function vent({ assessment, running, part, units }: Given): Readings {
  const r = running.vents.get(part.id);
  const cut = assessment.powerCut?.vents.get(part.id);
  if (!r) return empty;
  const lines = [
    line("Tee level", showQuantity("level", r.teeLevel, units)),
    line("Pressure at the tee", showQuantity("head", r.pressureHead, units)),
  ];
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
  if (ample !== null) lines.push(line("A bore that would be ample", showQuantity("bore", ample, units)));
  return {
    aside: { spills: "spills", stands: "water stands in it", drawsAir: "draws air" }[r.state],
    lines,
    notes: [],
  };
}

function spillway({ running, part, units }: Given): Readings {
  const r = running.spillways.get(part.id);
  if (!r) return empty;
  return {
    aside: "",
    lines: [
      line("Flow", showQuantity("flow", r.flow, units)),
      line("Water over the crest", showQuantity("length", r.head, units)),
    ],
    notes: [],
  };
}
