/** Affinity, power, and the system curve of a line whose friction factor the source fixes. */
import { minorLoss } from "../../../hydraulics/elements/minorLoss.ts";
import { pumpHead } from "../../../hydraulics/elements/pump.ts";
import {
  flowAtSpeed,
  headAtSpeed,
  hydraulicPower,
  powerAtSpeed,
  speedForHead,
  wireToWater,
} from "../../../hydraulics/formulas/hydraulicPower.ts";
import { totalHead } from "../../../hydraulics/formulas/totalHead.ts";
import { metresOfWater } from "../../../hydraulics/formulas/units.ts";
import type { Numbers } from "../given.ts";
import type { Checks } from "../hold.ts";

/** kg/m³: the source gives none; its printed heads are met by this round one. */
const density = 1000;

/** A pump whose head at the point given is known; what its curve gives there at another speed. */
const headOfCurve = (head: number, n: number) =>
  pumpHead(
    [
      [0, head],
      [1, head - 1],
    ],
    n,
  ).head(0);
const line = ({ f_darcy, length_m, bore_m, K_exit }: Numbers) =>
  minorLoss.build({ K: (f_darcy * length_m) / bore_m + K_exit, D: bore_m });
const systemHead = (n: Numbers) => n.lift_m + line(n).loss(n.flow_m3_s);
const testHead = (n: Numbers) => {
  const outlet = totalHead(metresOfWater(n.outlet_gauge_Pa, density), n.outlet_level_m, n.outlet_velocity_m_s);
  // 95.2 kPa at the inlet is absolute there, as is the outlet's: the difference stands.
  return outlet - totalHead(metresOfWater(n.inlet_gauge_Pa, density), n.inlet_level_m, n.inlet_velocity_m_s);
};
const testPower = (n: Numbers) => hydraulicPower(n.flow_m3_s, testHead(n), density);

export const pumpChecks: Checks = {
  "crane-7-33-affinity-flow": ({ speedRatio, flow_m3_s }) => flowAtSpeed(flow_m3_s, speedRatio),
  "crane-7-33-affinity-head": ({ speedRatio, head_m }) => headAtSpeed(head_m, speedRatio),
  "affinity-head-1650": ({ speedRatio, head_m }) => headOfCurve(head_m, speedRatio),
  "affinity-power-1650": ({ speedRatio, power_W }) => powerAtSpeed(power_W, speedRatio),
  "affinity-flow": ({ speed_1_rpm, speed_2_rpm, flow_1_m3_s }) => flowAtSpeed(flow_1_m3_s, speed_2_rpm / speed_1_rpm),
  "affinity-head": ({ speed_1_rpm, speed_2_rpm, head_1_m }) => headOfCurve(head_1_m, speed_2_rpm / speed_1_rpm),
  "duty-50mm-speed": ({ speed_rpm, head_1_m, head_2_m }) => speed_rpm * speedForHead(head_1_m, head_2_m),
  "duty-smooth-pipe-114mm-power": ({ flow_m3_s, head_m, efficiency, density_kg_m3 }) =>
    hydraulicPower(flow_m3_s, head_m, density_kg_m3) / efficiency,
  // A kilowatt at the shaft lifts what it lifts: the flow at which the power is used up.
  "pump-flow-from-power": ({ shaft_power_W, efficiency, lift_m, loss_m }) =>
    (shaft_power_W * efficiency) / hydraulicPower(1, lift_m + loss_m, 1000),
  "pump-drive-power": (n) => hydraulicPower(n.flow_m3_s, systemHead(n), 1000) / n.efficiency,
  "system-curve-2l-s": systemHead,
  "system-curve-4l-s": systemHead,
  "system-curve-8l-s": systemHead,
  "duty-50mm-system-2": systemHead,
  "duty-50mm-system-4": systemHead,
  "duty-50mm-system-6": systemHead,
  "duty-50mm-system-8": systemHead,
  "pump-test-head": testHead,
  "pump-test-water-power": testPower,
  "pump-test-efficiency": (n) =>
    wireToWater(testPower(n), (n.torque_N_m * n.speed_rpm * 2 * Math.PI) / 60) ?? Number.NaN,
  "pump-power-small": ({ flow_m3_s, head_m, efficiency, density_kg_m3 }) =>
    hydraulicPower(flow_m3_s, head_m, density_kg_m3) / efficiency,
};
