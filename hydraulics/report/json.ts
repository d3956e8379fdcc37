/** The report as the one object that `check --json` prints: stable keys, SI but for `litres…` and `…Left`.
 * The keys of the format come first; those after them are more than it asks for. The two starts are such:
 *   "startUp":  { "settled": true, "duration": 0, "lostToGround": 0, "failedAt": null,
 *     "ponds":    { "pond": { "startLevel": 0, "lowestLevel": 0, "highestLevel": 0, "finalLevel": 0,
 *                             "litresLent": 0, "overflowVolume": 0 } },
 *     "vessels":  { "tub":  { "startLevel": 0, "finalLevel": 0, "timeToReturn": 0, "overtops": false,
 *                             "overflowVolume": 0 } },
 *     "pumpsDry": { "lift": 0 },
 *     "events":   [ { "time": 0, "part": "lift", "text": "…", "code": "pumpStarts" } ] },
 *   "restart":  the same
 * (`startUp`: every vessel empty, ponds as drawn; `restart`: from where the power cut left the water. `timeToReturn` s
 * until water first leaves a vessel, null where it never does; `pumpsDry` s by pump, without those that stay covered;
 * `failedAt` the parts at which the run broke off. Null where there is no running state, or no end of the cut.) */
import type { PartId, Section } from "../document/section.ts";
import type { FaultResult } from "../faults/fault.ts";
import type { Finding } from "../findings/finding.ts";
import { must } from "../must.ts";
import type { CutPond, CutVent, CutVessel, PowerCut } from "../powerCut/powerCut.ts";
import type { StartUp } from "../powerCut/startUp.ts";
import type {
  PipeReading,
  PondReading,
  PumpReading,
  Running,
  SpillwayReading,
  VentReading,
  VesselReading,
} from "../solver/running.ts";
import type { Assessment } from "./assessment.ts";
import { worstFirst } from "./worstFirst.ts";

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

export function reportJson(
  section: Section,
  { running, powerCut, starts, findings, faults }: Assessment,
): { readonly [key: string]: Json } {
  const report = {
    format: "holdwater-report",
    version: 1,
    title: section.title,
    running: runningJson(running),
    powerCut: powerCut && running.converged ? powerCutJson(powerCut) : null,
    faults: faults.map(faultJson),
    findings: worstFirst(findings).map(findingJson),
    startUp: starts && startJson(starts.startUp),
    restart: starts?.restart ? startJson(starts.restart) : null,
  };
  promiseFinite(report, "report");
  return report;
}

const byId = <T>(readings: ReadonlyMap<PartId, T>, json: (reading: T) => Json): Json =>
  Object.fromEntries([...readings].map(([id, reading]) => [id, json(reading)]));

/** Without an answer there are no numbers but the one that says how far off it was. */
function runningJson(running: Running): Json {
  if (!running.converged) return { converged: false, parts: running.parts, largestResidual: running.largestResidual };
  return {
    converged: true,
    pumps: byId(running.pumps, pumpJson),
    pipes: byId(running.pipes, pipeJson),
    vessels: byId(running.vessels, vesselJson),
    vents: byId(running.vents, ventJson),
    ponds: byId(running.ponds, pondJson),
    spillways: byId(running.spillways, spillwayJson),
    iterations: running.iterations,
    residual: { ...running.residual },
  };
}

const pumpJson = (pump: PumpReading): Json => ({
  flow: pump.flow,
  head: pump.head,
  hydraulicPower: pump.hydraulicPower,
  flowRange: pump.flowRange,
  state: pump.state,
  shareOfGreatest: pump.shareOfGreatest,
  efficiency: pump.efficiency,
  yearlyCost: pump.yearlyCost,
  straightLineFlow: pump.straightLineFlow,
  lowestSuction: pump.lowestSuction,
});

const pipeJson = (pipe: PipeReading): Json => ({
  flow: pipe.flow,
  velocity: pipe.velocity,
  reynolds: pipe.reynolds,
  regime: pipe.regime,
  frictionLoss: pipe.frictionLoss,
  fittingLoss: pipe.fittingLoss,
  lossPerMetre: pipe.lossPerMetre,
  otherFormulaLoss: pipe.otherFormulaLoss,
  lowestPressureHead: pipe.lowestPressureHead,
  highestPressureHead: pipe.highestPressureHead,
  lowestPressureAt: pipe.lowestPressureAt,
  highestPressureAt: pipe.highestPressureAt,
  length: pipe.length,
  runs: pipe.runs,
  control: pipe.control,
  froude: pipe.froude,
  fillRatio: pipe.fillRatio,
  outsideRange: pipe.outsideRange,
  stretches: pipe.stretches,
});

const vesselJson = (vessel: VesselReading): Json => ({
  level: vessel.level,
  freeboard: vessel.freeboard,
  overtops: vessel.overtops,
  returnCapacity: vessel.returnCapacity,
  returnMargin: vessel.returnMargin,
  control: vessel.control,
  upflow: vessel.upflow,
  mediaLoss: vessel.mediaLoss,
  waterVolume: vessel.waterVolume,
  overflow: vessel.overflow,
  inflow: vessel.inflow,
  grossVolume: vessel.grossVolume,
  filledMass: vessel.filledMass,
  turnover: vessel.turnover,
  retention: vessel.retention,
  wettedSurface: vessel.wettedSurface,
  settlingDiameter: vessel.settlingDiameter,
  restingLevel: vessel.restingLevel,
});

const ventJson = (vent: VentReading): Json => ({
  pressureHead: vent.pressureHead,
  state: vent.state,
  spill: vent.spill,
  air: vent.air,
  spillsTo: vent.spillsTo,
  credited: vent.credited,
  teeLevel: vent.teeLevel,
  ampleBore: vent.ampleBore,
});

const pondJson = (pond: PondReading): Json => ({
  level: pond.level,
  volume: pond.volume,
  netInflow: pond.netInflow,
  lossToGround: pond.lossToGround,
});

const spillwayJson = (spillway: SpillwayReading): Json => ({ ...spillway });

function powerCutJson(cut: PowerCut): Json {
  return {
    settled: cut.settled,
    duration: cut.duration,
    lostToGround: cut.lostToGround,
    vessels: byId(cut.vessels, cutVesselJson),
    ponds: byId(cut.ponds, cutPondJson),
    vents: byId(cut.vents, cutVentJson),
    events: cut.events.map(({ time, part, text, code }) => ({ time, part, text, code })),
    balanceError: cut.balanceError,
    failedAt: cut.failedAt,
  };
}

const cutVesselJson = (vessel: CutVessel): Json => ({
  verdict: vessel.verdict,
  heldBy: vessel.heldBy,
  startLevel: vessel.startLevel,
  finalLevel: vessel.finalLevel,
  litresOut: vessel.litresOut,
  highestLevel: vessel.highestLevel,
  restingLevel: vessel.restingLevel,
  overtops: vessel.overtops,
  timeToMouth: vessel.timeToMouth,
  reason: vessel.reason,
});

const cutPondJson = (pond: CutPond): Json => ({
  startLevel: pond.startLevel,
  finalLevel: pond.finalLevel,
  highestLevel: pond.highestLevel,
  overflows: pond.overflows,
  overflowVolume: pond.overflowVolume,
});

const cutVentJson = (vent: CutVent): Json => ({
  rating: vent.rating,
  airToWater: vent.airToWater,
  ampleBore: vent.ampleBore,
});

const startJson = (start: StartUp): Json => ({
  settled: start.settled,
  duration: start.duration,
  lostToGround: start.lostToGround,
  failedAt: start.failedAt,
  ponds: byId(start.ponds, (pond) => ({ ...pond })),
  vessels: byId(start.vessels, (vessel) => ({ ...vessel })),
  pumpsDry: byId(start.pumpsDry, (time) => time),
  events: start.events.map(({ time, part, text, code }) => ({ time, part, text, code })),
});

const faultJson = (fault: FaultResult): Json => ({
  fault: fault.fault,
  part: fault.part,
  pondLeft: fault.pondLeft,
  vesselLeft: Object.fromEntries(fault.vesselLeft),
  lostToGround: fault.lostToGround,
  outcome: fault.outcome,
  title: fault.title,
  pondShareLeft: fault.pondShareLeft,
  pondDepthLeft: fault.pondDepthLeft,
  pondLevelLeft: fault.pondLevelLeft,
  timeToHalfPond: fault.timeToHalfPond,
  timeToPumpDry: fault.timeToPumpDry,
  duration: fault.duration,
  drained: fault.drained,
  reason: fault.reason,
});

const findingJson = (finding: Finding): Json => ({
  code: finding.code,
  severity: finding.severity,
  parts: finding.parts,
  text: finding.text,
  remedy: finding.remedy,
  figures: { ...finding.figures },
});

/** JSON has no word for a number that is not finite, and writing `null` for one would hide a fault of ours. */
function promiseFinite(value: Json, path: string): void {
  if (typeof value === "number") must(Number.isFinite(value), `${path} is finite, not ${value}`);
  else if (Array.isArray(value)) {
    for (const [i, member] of value.entries()) promiseFinite(member, `${path}[${i}]`);
  } else if (value !== null && typeof value === "object") {
    for (const [key, member] of Object.entries(value)) promiseFinite(member as Json, `${path}.${key}`);
  }
}
