/** Every table of checks, so that the count can be taken. */
import { airChecks } from "./air.ts";
import { criticalFlowChecks } from "./criticalFlow.ts";
import { culvertInletChecks } from "./culvertInlet.ts";
import { darcyWeisbachChecks } from "./darcyWeisbach.ts";
import { hazenWilliamsChecks } from "./hazenWilliams.ts";
import { mediaChecks } from "./media.ts";
import { minorLossChecks } from "./minorLoss.ts";
import { networkChecks } from "./networks.ts";
import { orificeAndWeirChecks } from "./orificeAndWeir.ts";
import { partFullChecks } from "./partFull.ts";
import { pumpChecks } from "./pump.ts";
import { siphonChecks } from "./siphon.ts";
import { stokesChecks } from "./stokes.ts";
import { tankEmptyingChecks } from "./tankEmptying.ts";
import { unitChecks } from "./units.ts";
import { waterChecks } from "./water.ts";

export const allChecks = {
  air: airChecks,
  criticalFlow: criticalFlowChecks,
  culvertInlet: culvertInletChecks,
  darcyWeisbach: darcyWeisbachChecks,
  hazenWilliams: hazenWilliamsChecks,
  media: mediaChecks,
  minorLoss: minorLossChecks,
  networks: networkChecks,
  orificeAndWeir: orificeAndWeirChecks,
  partFull: partFullChecks,
  pump: pumpChecks,
  siphon: siphonChecks,
  stokes: stokesChecks,
  tankEmptying: tankEmptyingChecks,
  units: unitChecks,
  water: waterChecks,
};
