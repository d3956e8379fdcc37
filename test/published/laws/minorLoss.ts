/** Losses in fittings, and our table of K against other tables.
 * The tables differ among themselves by a factor of two and more:
 * where ours is another number, the reason is beside it. */
import { minorLoss } from "../../../hydraulics/elements/minorLoss.ts";
import { valveK } from "../../../hydraulics/elements/valve.ts";
import { boreArea } from "../../../hydraulics/formulas/circle.ts";
import {
  entranceFlushK,
  entranceProjectingK,
  exitK,
  fittingK,
  suddenContractionK,
  suddenEnlargementK,
  swingCheckValveK,
} from "../../../hydraulics/formulas/fittingK.ts";
import { g } from "../../../hydraulics/formulas/gravity.ts";
import { pressureHead, totalHead, velocityHead } from "../../../hydraulics/formulas/totalHead.ts";
import type { Numbers } from "../given.ts";
import type { Checks } from "../hold.ts";

/** m, on a bore of 50 mm: the bore cancels against the velocity given */
const lossAt = ({ K, velocity_m_s }: Numbers) => minorLoss.build({ K, D: 0.05 }).loss(velocity_m_s * boreArea(0.05));
const dropAt = (n: Numbers) => n.density_kg_m3 * g * lossAt(n);
const boreOf = (area: number) => Math.sqrt((4 * area) / Math.PI);

const threaded = "another table: small threaded fittings, and ours is for solvent-cemented plastic";
const gate = "another table; gate valves part shut differ by a factor of 2.5 between tables, ours is the dearer";
const metal =
  "the source's table is for metal pipe; ours is the dearer, plastic fittings of small bore being rougher inside (common practice, no source)";

export const minorLossChecks: Checks = {
  "minor-ball-valve-third-closed": lossAt,
  "K-gate-valve-open": { ours: valveK("gate", 1), because: "tables give 0.15 to 0.2 for an open gate valve" },
  "K-gate-valve-1-2-closed": {
    law: () => valveK("gate", 0.5),
    off: 1.381,
    because:
      "this table gives 2.1 for a half-shut gate valve where two others read (4.5 and 5.6) agree with our 5.0: ours is 2.4 times it, within the factor of 2.5 that the entry's note allows but over its figure",
  },
  "K-gate-valve-3-4-closed": { ours: valveK("gate", 0.25), because: gate },
  "K-swing-check-valve--forward": { ours: swingCheckValveK },
  "K-ball-valve-open": { ours: valveK("ball", 1) },
  "K-ball-valve-1-3-closed": { ours: valveK("ball", 2 / 3) },
  "K-ball-valve-2-3-closed": {
    ours: valveK("ball", 1 / 3),
    because: "rounded in this table; the textbook's own table has our 210",
  },
  "K-tee--threaded--line-flow": { ours: fittingK.teeRun, because: threaded },
  "K-tee--threaded--branch-flow": { ours: fittingK.teeBranch, because: threaded },
  "K-elbow-90---flanged--regular": {
    law: () => fittingK.elbow90,
    off: 2,
    because:
      "a flanged metal elbow is smooth inside and long; a plastic elbow turns at once, and other tables give 0.75 to 1.5",
  },
  "enlargement-loss": ({ velocity_m_s, g_m_s2 }, { area_m2: [a = 0, b = 0] }) =>
    suddenEnlargementK(boreOf(a), boreOf(b)) * velocityHead(velocity_m_s, g_m_s2),
  "enlargement-pressure": ({ velocity_m_s, pressure_Pa, specific_weight_N_m3 }, { area_m2: [a = 0, b = 0] }) => {
    const before = totalHead(pressure_Pa / specific_weight_N_m3, 0, velocity_m_s);
    const after = before - suddenEnlargementK(boreOf(a), boreOf(b)) * velocityHead(velocity_m_s);
    return specific_weight_N_m3 * pressureHead(after, 0, (velocity_m_s * a) / b);
  },
  "enlargement-1-4ft2": ({ flow_m3_s, bore_1_m, bore_2_m, g_m_s2 }) =>
    (minorLoss.build({ K: suddenEnlargementK(bore_1_m, bore_2_m), D: bore_1_m }).loss(flow_m3_s) * g) / g_m_s2,
  "k-entry-exit-13fps": dropAt,
  "k-sum-27.56-13fps": dropAt,
  "k-gate-open": { ours: valveK("gate", 1), because: "tables give 0.15 to 0.2 for an open gate valve" },
  "k-gate-3-4": { ours: valveK("gate", 0.75), because: gate },
  "k-gate-1-2": { ours: valveK("gate", 0.5), because: gate },
  "k-gate-1-4": { ours: valveK("gate", 0.25), because: gate },
  "k-gate-1-2-closed-wss": { ours: valveK("gate", 0.5), because: "between this table's 5.6 and another's 4.5" },
  "k-ball-open": { ours: valveK("ball", 1) },
  "k-ball-1-3-closed": { ours: valveK("ball", 2 / 3) },
  "k-ball-2-3-closed": { ours: valveK("ball", 1 / 3) },
  "k-swing-check": { ours: swingCheckValveK },
  "k-elbow-standard": { ours: fittingK.elbow90, because: metal },
  "k-elbow-45": { ours: fittingK.elbow45 },
  "k-elbow-long": { ours: fittingK.swept90 },
  "k-tee-run": { ours: fittingK.teeRun },
  "k-tee-branch": { ours: fittingK.teeBranch, because: metal },
  "k-entry-flush": { ours: entranceFlushK },
  "k-entry-projecting": {
    ours: entranceProjectingK,
    because: "the table gives a span, 0.8 to 1.0; ours is its lower end, for pipe with a wall of some thickness",
  },
  "k-exit": { ours: exitK },
  "k-contraction-0.25": ({ bore_ratio }) => suddenContractionK(1, bore_ratio),
  "k-contraction-0.75": ({ bore_ratio }) => suddenContractionK(1, bore_ratio),
  "k-enlargement-0.25": ({ bore_ratio }) => suddenEnlargementK(bore_ratio, 1),
};
