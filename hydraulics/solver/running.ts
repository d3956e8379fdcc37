/** What the running state is, as values: the solution stage's public types. SI throughout. */
import type { PartId } from "../document/section.ts";

export type Regime = "laminar" | "transitional" | "turbulent";
export type Control = "inlet" | "outlet" | "route" | "rim" | "none";

/** A point along a pipe for the drawing: `at` m from the `from` end, axis level z, and the hydraulic
 * grade line H − V²/2g there (null where the pipe runs part-full and the line is not defined). */
export interface GradePoint {
  readonly at: number;
  readonly x: number;
  readonly z: number;
  readonly grade: number | null;
}

export interface PipeReading {
  /** m³/s at the `from` end, positive towards `to` */
  readonly flow: number;
  readonly velocity: number;
  readonly reynolds: number;
  readonly regime: Regime;
  readonly frictionLoss: number;
  readonly fittingLoss: number;
  /** friction loss / length */
  readonly lossPerMetre: number;
  readonly otherFormulaLoss: number;
  /** m of water above the axis; null where no full-bore pressure exists */
  readonly lowestPressureHead: number | null;
  readonly lowestPressureAt: number | null;
  readonly highestPressureHead: number | null;
  readonly highestPressureAt: number | null;
  /** drawn length plus extraLength */
  readonly length: number;
  /** `full`: fed by a pump's group; `gravity`: rated by section 6 */
  readonly runs: "full" | "gravity";
  /** what rates a gravity pipe at its flow */
  readonly control: Control;
  /** V_full/√(gD) in the stretch between tees that carries most, gravity pipes */
  readonly froude: number | null;
  /** deepest part-full run by Manning, depth/bore; 1 where it runs full; null where it is not near-level gravity */
  readonly fillRatio: number | null;
  /** why the friction formula is outside its tested range, in words; empty where it is inside */
  readonly outsideRange: readonly string[];
  readonly gradeLine: readonly GradePoint[];
  /** flow in each stretch between tees, from `from` on: [start, end, flow] */
  readonly stretches: readonly (readonly [start: number, end: number, flow: number])[];
}

export interface PumpReading {
  readonly flow: number;
  /** the curve's head at the flow */
  readonly head: number;
  readonly hydraulicPower: number;
  /** 5 % and 95 % of the delivered flow over the uncertain inputs, seeded */
  readonly flowRange: readonly [low: number, high: number];
  /** flow / the maker's greatest flow, which the speed does not change; null without one */
  readonly shareOfGreatest: number | null;
  readonly efficiency: number | null;
  /** money per year at the site's tariff */
  readonly yearlyCost: number | null;
  /** delivered flow if the stand-in curve were a straight line; null where the maker's points are given */
  readonly straightLineFlow: number | null;
  readonly state: "delivers" | "shutOff" | "dry" | "off" | "loose" | "beyondCurve";
  /** lowest pressure head on the lines it draws through; null without one */
  readonly lowestSuction: number | null;
}

export interface VesselReading {
  readonly level: number;
  readonly freeboard: number;
  readonly overtops: boolean;
  /** m³/s over the rim */
  readonly overflow: number;
  readonly inflow: number;
  readonly returnCapacity: number;
  readonly returnMargin: number | null;
  readonly control: Control;
  /** m/s of open plan area, greatest over the media; the report's unit too */
  readonly upflow: number;
  readonly mediaLoss: number;
  readonly waterVolume: number;
  readonly grossVolume: number;
  /** kg of stone and water, without the vessel itself */
  readonly filledMass: number;
  /** vessel volumes an hour */
  readonly turnover: number | null;
  /** s */
  readonly retention: number | null;
  /** m² of stone under water */
  readonly wettedSurface: number;
  /** m, the smallest particle that settles against the upflow; null at no upflow */
  readonly settlingDiameter: number | null;
  /** the level at which the outlets stop; null without outlets */
  readonly restingLevel: number | null;
}

export interface VentReading {
  /** y − z_tee with the vent as it is, m */
  readonly pressureHead: number;
  readonly state: "spills" | "stands" | "drawsAir";
  /** m³/s of water */
  readonly spill: number;
  readonly spillsTo: PartId | "ground" | null;
  /** Qa, m³/s of air at the rating suction; 0 where there is none */
  readonly air: number;
  readonly credited: boolean;
  readonly teeLevel: number;
  /** the bore that would be ample at this opening and riser; null where it sees no suction */
  readonly ampleBore: number | null;
}

export interface PondReading {
  readonly level: number;
  readonly volume: number;
  readonly netInflow: number;
  /** m³/s lost from the system to ground that this pond's water feeds (spills, overtopping, open ends) */
  readonly lossToGround: number;
}

export interface SpillwayReading {
  readonly flow: number;
  readonly head: number;
  /** m³/s per m of width */
  readonly perWidth: number;
}

export interface RunningState {
  readonly converged: true;
  readonly pumps: ReadonlyMap<PartId, PumpReading>;
  readonly pipes: ReadonlyMap<PartId, PipeReading>;
  readonly vessels: ReadonlyMap<PartId, VesselReading>;
  readonly vents: ReadonlyMap<PartId, VentReading>;
  readonly ponds: ReadonlyMap<PartId, PondReading>;
  readonly spillways: ReadonlyMap<PartId, SpillwayReading>;
  readonly iterations: number;
  /** m³/s, worst node balance; m, worst loss equation */
  readonly residual: { readonly balance: number; readonly loss: number };
}

/** Has no flows, so that a run that did not converge cannot be shown by accident. */
export interface NotConverged {
  readonly converged: false;
  readonly parts: readonly PartId[];
  readonly largestResidual: number;
  readonly iterations: number;
}

export type Running = RunningState | NotConverged;
