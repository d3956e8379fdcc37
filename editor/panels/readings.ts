/** What the solver knows about one part, as lines for its slip and for the table. */
import type { Assessment, Part, Pipe, RunningState, Section } from "../../hydraulics/index.ts";
import { partNameById } from "../sheet/partName.ts";
import { sentencesOf } from "../sheet/sentence.ts";
import { formatMoney, formatTime, type UnitSystem } from "../sheet/units.ts";
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
  const pump = r.flow === 0 ? null : pumpOf(section, running, part);
  if (pump)
    lines.push(
      line(`Share of the head of ${pump.name}`, `${figure((100 * (r.frictionLoss + r.fittingLoss)) / pump.head, 2)} %`),
    );
  return {
    aside: r.flow === 0 ? "no flow" : `${r.regime}, Re ${whole(Number(Math.abs(r.reynolds).toPrecision(3)))}`,
    lines,
    notes: r.outsideRange,
  };
}

/** The pump that the pipe leads from or to, else the only one that lifts; of a gravity pipe none. */
function pumpOf(
  section: Section,
  running: RunningState,
  pipe: Pipe,
): { readonly name: string; readonly head: number } | null {
  if (running.pipes.get(pipe.id)?.runs !== "full") return null;
  const lifting = [...running.pumps].filter(([, { flow, head }]) => flow > 0 && head > 0);
  const ends = [pipe.from, pipe.to].flatMap((end) => ("part" in end ? [end.part] : []));
  const own = lifting.find(([id]) => ends.includes(id)) ?? (lifting.length === 1 ? lifting[0] : undefined);
  return own ? { name: partNameById(section, own[0]), head: own[1].head } : null;
}

const airWord = (froude: number): string =>
  froude < 0.3 ? "vents itself" : froude < 1 ? "gulps and surges" : "carries its air along";
const controlWord = (control: string): string =>
  ({ inlet: "its inlet", outlet: "its outlet", route: "its route", rim: "the rim", none: "nothing" })[control] ??
  control;

function pump({ section, assessment, running, part, units }: Given): Readings {
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

function vessel({ section, assessment, running, part, units }: Given): Readings {
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
  if (r.restingLevel !== null) lines.push(line("Its outlets stop at", showQuantity("level", r.restingLevel, units)));
  lines.push(
    line(
      "Upflow",
      units === "metric" ? `${figure(r.upflow * 3600, 2)} m/h` : `${figure((r.upflow * 3600) / 0.3048, 2)} ft/h`,
    ),
    ...stoneLosses(part, r.mediaLoss, units),
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
    ...(cut ? [sentencesOf(section, units)(cut.reason)] : []),
    "Needs a firm, level footing for its filled weight (stone and water, without the vessel).",
  ];
  return { aside: cut ? verdictWord(cut.verdict, cut.heldBy) : "", lines, notes };
}

/** Ergun's law goes by the clogging factor, so at this flow the loss of clean and of clogged stone follow from the one
 * that was found. */
function stoneLosses(part: Part, loss: number, units: UnitSystem): readonly Reading[] {
  const clogging = part.kind === "vessel" ? (part.clogging ?? 1) : 1;
  const now = line("Loss in the stone", showQuantity("head", loss, units));
  // A millionth of a metre is the solver's rounding: no water rises through this stone.
  if (Math.abs(loss) < 1e-6) return [now];
  return [
    now,
    ...(clogging === 1 ? [] : [line("clean, at this flow", showQuantity("head", loss / clogging, units))]),
    line("clogged ten times, at this flow", showQuantity("head", (10 * loss) / clogging, units)),
  ];
}

export const verdictWord = (verdict: string, heldBy: string): string =>
  verdict === "drains" ? "drains" : heldBy === "movingPart" ? "held by a moving part" : "held by geometry";

function pond({ assessment, running, part, units }: Given): Readings {
  const r = running.ponds.get(part.id);
  const cut = assessment.powerCut?.ponds.get(part.id);
  if (!r) return empty;
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

function vent({ section, assessment, running, part, units }: Given): Readings {
  const r = running.vents.get(part.id);
  const cut = assessment.powerCut?.vents.get(part.id);
  if (!r) return empty;
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
  if (ample !== null) lines.push(line("A bore that would be ample", showQuantity("bore", ample, units)));
  return {
    aside: { spills: "spills", stands: "water stands in it", drawsAir: "draws air" }[r.state],
    lines,
    notes: [],
  };
}

/** The running level of the vessel that the vent's pipe leads to or from. */
function waterAt(section: Section, running: RunningState, part: Part): number | null {
  const pipe = part.kind === "vent" ? section.parts.get(part.on.pipe) : undefined;
  if (pipe?.kind !== "pipe") return null;
  for (const end of [pipe.to, pipe.from]) {
    const level = "part" in end ? running.vessels.get(end.part)?.level : undefined;
    if (level !== undefined) return level;
  }
  return null;
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
