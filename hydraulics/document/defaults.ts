/** What an absent field means. The document keeps absent fields absent (writing gives back what was read),
 * so every reader of a part asks here and nowhere else. Values: the format's example and sections 2, 3 and 6
 * of the design notes; those marked (m) there are from memory. The user can override each of them per part. */
import type {
  CheckValve,
  FittingEntry,
  Material,
  MediaLayer,
  Mouth,
  PartId,
  Pipe,
  PipeEnd,
  Pond,
  Pump,
  Section,
  Site,
  Spillway,
  Valve,
  Vent,
  Vessel,
} from "./section.ts";

export const siteDefaults: Required<Site> = {
  groundLevel: 0,
  waterTemperature: 15,
  friction: "hazen-williams",
  freeboard: 0.05,
  tariff: 0.3,
  currency: "",
};

/** The site with every field there. */
export const siteOf = (section: Section): Required<Site> => ({ ...siteDefaults, ...section.site });

// --- bodies -------------------------------------------------------------------------------------------

/** Horizontal per vertical; upright walls where absent. */
export const sideSlope = (pond: Pond): number => pond.sideSlope ?? 0;

const noMedia: readonly MediaLayer[] = [];
/** From the base up. */
export const mediaOf = (vessel: Vessel): readonly MediaLayer[] => vessel.media ?? noMedia;

/** Multiplies the media's loss; 1 is clean. */
export const cloggingOf = (vessel: Vessel): number => vessel.clogging ?? 1;

/** Where water over the rim goes. */
export const overflowOf = (vessel: Vessel): "ground" | PartId => vessel.overflow ?? "ground";

// --- pumps --------------------------------------------------------------------------------------------

/** Scales the curve by affinity; 0 is off. */
export const pumpSpeed = (pump: Pump): number => pump.speed ?? 1;
/** m³/s, the greatest flow that the maker states: at full speed */
export const makersFlow = (pump: Pump): number => (pump.curve ? (pump.curve.at(-1)?.[0] ?? 0) : (pump.maxFlow ?? 0));

/** Loss coefficient of the stopped pump on its outlet bore, the whole of it. From memory. */
export const pumpStoppedK = (pump: Pump): number => pump.stoppedK ?? 10;

const outletBores = new WeakMap<Section, ReadonlyMap<PartId, number>>();

/** The pump's outlet bore: its own, else that of its first pipe in the file's order (one at its outlet goes
 * before one at its inlet), else null: no pipe, no bore. */
export function outletBoreOf(section: Section, pump: Pump): number | null {
  if (pump.outletBore !== undefined) return pump.outletBore;
  let bores = outletBores.get(section);
  if (!bores) {
    bores = firstPipeBores(section);
    outletBores.set(section, bores);
  }
  return bores.get(pump.id) ?? null;
}

/** Bore of the first pipe at each part, outlets before inlets. Once a section, so that many pumps cost one walk. */
function firstPipeBores(section: Section): ReadonlyMap<PartId, number> {
  const pipes = [...section.parts.values()].filter((part) => part.kind === "pipe").sort((a, b) => a.rank - b.rank);
  const bores = new Map<PartId, number>();
  for (const side of ["from", "to"] as const) {
    for (const pipe of pipes) {
      const end = pipe[side];
      if ("part" in end && !bores.has(end.part)) bores.set(end.part, pipe.bore);
    }
  }
  return bores;
}

// --- pipes --------------------------------------------------------------------------------------------

/** Smooth unless the drawing says otherwise: most ponds are piped in it. */
export const pipeMaterial = (pipe: Pipe): Material => pipe.material ?? "pvc";

/** Hazen-Williams C by material. Design notes, section 2; corrugated from memory. */
export const materialC: Readonly<Record<Material, number>> = {
  pvc: 150,
  pe: 150,
  hose: 140,
  corrugated: 100,
  copper: 135,
  galvanised: 120,
};

/** Roughness by material, m. Design notes, section 2; corrugated from memory. */
export const materialRoughness: Readonly<Record<Material, number>> = {
  pvc: 1.5e-6,
  pe: 1.5e-6,
  hose: 1.5e-6,
  corrugated: 1e-3,
  copper: 1.5e-6,
  galvanised: 1.5e-4,
};

export const pipeC = (pipe: Pipe): number => pipe.hazenWilliamsC ?? materialC[pipeMaterial(pipe)];

/** m */
export const pipeRoughness = (pipe: Pipe): number => pipe.roughness ?? materialRoughness[pipeMaterial(pipe)];

/** Whether turns drawn in the route count as bends. */
export const countsBends = (pipe: Pipe): boolean => (pipe.bends ?? "auto") === "auto";

/** m, at the pipe's `from` end */
export const extraLengthOf = (pipe: Pipe): number => pipe.extraLength ?? 0;

const noFittings: readonly FittingEntry[] = [];
export const fittingsOf = (pipe: Pipe): readonly FittingEntry[] => pipe.fittings ?? noFittings;

/** A mouth that does not say is flush in the wall. */
export const mouthOf = (end: Extract<PipeEnd, { part: PartId }>): Mouth => end.mouth ?? "side";

// --- on a pipe ----------------------------------------------------------------------------------------

export const valveType = (valve: Valve): "ball" | "gate" => valve.type ?? "ball";
export const valveRole = (valve: Valve): "throttle" | "flush" => valve.role ?? "throttle";

/** 0 shut … 1 open. Absent: as it stands in daily use, a throttle open and a flush shut. */
export const valveOpen = (valve: Valve): number => valve.open ?? (valveRole(valve) === "flush" ? 0 : 1);

export const isStuckOpen = (valve: CheckValve): boolean => valve.stuckOpen ?? false;

/** m, taken off while it passes: a swing flap 0, a spring about 0.35. */
export const openingHeadOf = (valve: CheckValve): number => valve.openingHead ?? 0;

/** 0 shut … 1 open */
export const ventOpen = (vent: Vent): number => vent.open ?? 1;

/** The level at which the vent meets the air; a bare valve on the pipe does so at the tee. */
export const ventEnd = (vent: Vent, teeLevel: number): number => vent.openEndZ ?? teeLevel;

// --- spillways ----------------------------------------------------------------------------------------

export const crestKind = (spillway: Spillway): "sharp" | "broad" => spillway.crest ?? "sharp";
