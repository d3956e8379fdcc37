/** The figures of a report as tables: a title and rows. One function a kind of part. */
import { pumpSpeed } from "../document/defaults.ts";
import type { PartId, Section } from "../document/section.ts";
import type { FaultResult } from "../faults/fault.ts";
import { upToTenth } from "../findings/upToTenth.ts";
import type { PowerCut } from "../powerCut/powerCut.ts";
import type { StartUp } from "../powerCut/startUp.ts";
import type { Control, RunningState } from "../solver/running.ts";
import { formatTime, type UnitSystem } from "./formats.ts";
import { nameOf } from "./nameOf.ts";
import { type Of, onlyStands } from "./of.ts";
import { plain } from "./plain.ts";
import { percent, type Quantity, ratio, shown } from "./shown.ts";

export interface Table {
  readonly title: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

type Show = (quantity: Quantity, value: number | null) => string;
const showIn =
  (units: UnitSystem): Show =>
  (quantity, value) =>
    value === null ? "" : shown(quantity, value, units);

export function runningTables(of: Of, running: RunningState, cut: PowerCut | null): readonly Table[] {
  return [
    pumpTable(of, running),
    pipeTable(of, running),
    vesselTable(of, running),
    fillTable(of, running),
    ventTable(of, running, cut),
    pondTable(of, running),
    spillwayTable(of, running),
  ].filter((table) => table.rows.length > 0);
}

function rowsOf<T>(
  { section }: Of,
  readings: ReadonlyMap<PartId, T>,
  row: (reading: T, id: PartId) => readonly string[],
): readonly (readonly string[])[] {
  return [...readings].map(([id, reading]) => [nameOf(section, id), ...row(reading, id)]);
}

const pumpStates = {
  delivers: "",
  shutOff: "no flow",
  dry: "dry",
  off: "off",
  loose: "loose",
  beyondCurve: "past its curve",
} as const;

function pumpTable(of: Of, { pumps }: RunningState): Table {
  const show = showIn(of.units);
  return {
    title: "Pumps",
    heads: ["", "flow", "likely", "head", "of greatest", "efficiency", "a year", "state"],
    rows: rowsOf(of, pumps, (pump, id) => [
      show("flow", pump.flow),
      `${show("flow", pump.flowRange[0])} to ${show("flow", pump.flowRange[1])}`,
      show("head", pump.head),
      pump.shareOfGreatest === null ? "" : percent(pump.shareOfGreatest),
      pump.efficiency === null ? "" : percent(pump.efficiency),
      pump.yearlyCost === null ? "" : `${pump.yearlyCost.toFixed(2)} ${currencyOf(of.section)}`.trim(),
      pumpStates[pump.state] + speedNote(of.section, id),
    ]),
  };
}

const currencyOf = (section: Section): string => plain(section.site.currency ?? "");

function speedNote(section: Section, id: PartId): string {
  const pump = section.parts.get(id);
  const speed = pump?.kind === "pump" ? pumpSpeed(pump) : 1;
  return speed === 1 || speed === 0 ? "" : ` at ${percent(speed)} speed`;
}

function pipeTable(of: Of, { pipes }: RunningState): Table {
  const show = showIn(of.units);
  return {
    title: "Pipes",
    heads: [
      "",
      "flow",
      "velocity",
      "friction",
      "fittings",
      "per length",
      "length",
      "lowest pressure",
      "regime",
      "runs",
    ],
    rows: rowsOf(of, pipes, (pipe) => {
      const length = show("length", pipe.length);
      // A pipe at rest loses nothing: a row of noughts would hide that it is shut.
      if (pipe.flow === 0) return ["at rest", "", "", "", "", length];
      return [
        show("flow", pipe.flow),
        show("velocity", pipe.velocity),
        show("head", pipe.frictionLoss),
        show("head", pipe.fittingLoss),
        show("gradient", pipe.lossPerMetre),
        length,
        show("head", pipe.lowestPressureHead),
        pipe.regime,
        pipe.runs === "full" ? "full" : "by gravity",
      ];
    }),
  };
}

const controlWords: Readonly<Record<Control, string>> = {
  inlet: "its mouth",
  outlet: "its outlet",
  route: "its route",
  rim: "a sill or rim",
  none: "",
};

function vesselTable(of: Of, { vessels }: RunningState): Table {
  const show = showIn(of.units);
  return {
    title: "Vessels, running",
    heads: ["", "water level", "freeboard", "comes in", "return carries", "margin", "limited by", "over the rim"],
    rows: rowsOf(of, vessels, (vessel) => [
      show("level", vessel.level),
      show("height", vessel.freeboard),
      show("flow", vessel.inflow),
      show("flow", vessel.returnCapacity),
      vessel.returnMargin === null ? "" : ratio(vessel.returnMargin),
      controlWords[vessel.control],
      vessel.overtops ? show("flow", vessel.overflow) : "",
    ]),
  };
}

function fillTable(of: Of, { vessels }: RunningState): Table {
  const show = showIn(of.units);
  return {
    title: "Vessels, filling",
    heads: ["", "gross", "water", "filled weight", "upflow", "turnover", "stays for", "loss in the media"],
    rows: rowsOf(of, vessels, (vessel) => [
      show("volume", vessel.grossVolume),
      show("volume", vessel.waterVolume),
      show("mass", vessel.filledMass),
      show("upflow", vessel.upflow),
      vessel.turnover === null ? "" : `${vessel.turnover.toFixed(1)} per h`,
      vessel.retention === null ? "" : formatTime(vessel.retention),
      show("height", vessel.mediaLoss),
    ]),
  };
}

const ventStates = { spills: "spills", stands: "water stands in it", drawsAir: "draws air" } as const;
const ventRatings = { ample: "ample", marginal: "marginal", tooSmall: "too small", notUsed: "not used" } as const;

function ventTable(of: Of, { vents }: RunningState, cut: PowerCut | null): Table {
  const show = showIn(of.units);
  return {
    title: "Vents",
    heads: ["", "tee level", "running", "spills", "in a power cut", "air to water", "ample from"],
    rows: rowsOf(of, vents, (vent, id) => {
      const rated = cut?.vents.get(id);
      return [
        show("level", vent.teeLevel),
        ventStates[vent.state],
        vent.spill > 0 ? show("flow", vent.spill) : "",
        rated ? ventRatings[rated.rating] : "",
        rated && rated.airToWater !== null ? ratio(rated.airToWater) : "",
        show("bore", rated?.ampleBore ? upToTenth(rated.ampleBore) : null),
      ];
    }),
  };
}

function pondTable(of: Of, { ponds }: RunningState): Table {
  const show = showIn(of.units);
  return {
    title: "Ponds",
    heads: ["", "water level", "water", "in less out", "lost to the ground"],
    rows: rowsOf(of, ponds, (pond) => [
      show("level", pond.level),
      show("volume", pond.volume),
      show("flow", pond.netInflow),
      pond.lossToGround > 0 ? show("flow", pond.lossToGround) : "",
    ]),
  };
}

function spillwayTable(of: Of, { spillways }: RunningState): Table {
  const show = showIn(of.units);
  return {
    title: "Sills",
    heads: ["", "flow", "head over it"],
    rows: rowsOf(of, spillways, (spillway) => [show("flow", spillway.flow), show("height", spillway.head)]),
  };
}

export function cutTables(of: Of, cut: PowerCut): readonly Table[] {
  const show = showIn(of.units);
  const vessels: Table = {
    title: "Vessels, after the power cut",
    heads: ["", "from", "to", "runs out", "down to the mouth in", "verdict"],
    rows: rowsOf(of, cut.vessels, (vessel, id) => [
      show("level", vessel.startLevel),
      show("level", vessel.finalLevel),
      show("volume", vessel.litresOut / 1000),
      vessel.timeToMouth === null ? "" : formatTime(vessel.timeToMouth),
      onlyStands(of, id, vessel) ? "not joined" : vessel.verdict,
    ]),
  };
  const ponds: Table = {
    title: "Ponds, after the power cut",
    heads: ["", "from", "to", "highest", "over the rim"],
    rows: rowsOf(of, cut.ponds, (pond) => [
      show("level", pond.startLevel),
      show("level", pond.finalLevel),
      show("level", pond.highestLevel),
      pond.overflows ? show("volume", pond.overflowVolume) : "",
    ]),
  };
  return [vessels, ponds].filter((table) => table.rows.length > 0);
}

/** A vessel's outlet that runs from the first moment has nothing to wait for. */
export function startTable(of: Of, title: string, { ponds, vessels }: StartUp): Table {
  const show = showIn(of.units);
  return {
    title,
    heads: ["", "from", "lowest", "to", "lends", "outlet runs after", "over the rim"],
    rows: [
      ...rowsOf(of, ponds, (pond) => [
        show("level", pond.startLevel),
        show("level", pond.lowestLevel),
        show("level", pond.finalLevel),
        show("volume", pond.litresLent / 1000),
        "",
        pond.overflowVolume > 0 ? show("volume", pond.overflowVolume) : "",
      ]),
      ...rowsOf(of, vessels, (vessel) => [
        show("level", vessel.startLevel),
        "",
        show("level", vessel.finalLevel),
        "",
        vessel.timeToReturn === null ? "never" : formatTime(vessel.timeToReturn),
        vessel.overtops ? show("volume", vessel.overflowVolume) : "",
      ]),
    ],
  };
}

export function faultTable({ units, says }: Of, faults: readonly FaultResult[]): Table {
  const show = showIn(units);
  return {
    title: "Single faults, worst first",
    heads: ["", "outcome", "pond left", "share", "deep", "lost to the ground", "half in", "pump dry in"],
    rows: faults.map((fault) => [
      says(fault.title),
      fault.outcome,
      show("volume", fault.pondLeft),
      percent(fault.pondShareLeft),
      fault.pondLevelLeft === null ? "" : show("length", fault.pondDepthLeft),
      fault.lostToGround > 0 ? show("volume", fault.lostToGround) : "",
      fault.timeToHalfPond === null ? "" : formatTime(fault.timeToHalfPond),
      fault.timeToPumpDry === null ? "" : formatTime(fault.timeToPumpDry),
    ]),
  };
}
