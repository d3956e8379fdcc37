/** Worked examples of whole systems, each written down as a network and given to the program's own solver.
 * Where a source fixes the friction factor f, its pipe is met with that f: K = f·L/D on the velocity head. A source's
 * other g is met by scaling, since every such loss goes with 1/g. */
import { darcyWeisbach } from "../../../hydraulics/elements/darcyWeisbach.ts";
import type { Loss } from "../../../hydraulics/elements/element.ts";
import { hazenWilliams } from "../../../hydraulics/elements/hazenWilliams.ts";
import { minorLoss } from "../../../hydraulics/elements/minorLoss.ts";
import { pump } from "../../../hydraulics/elements/pump.ts";
import { squareLaw } from "../../../hydraulics/elements/squareLaw.ts";
import { boreArea } from "../../../hydraulics/formulas/circle.ts";
import { g } from "../../../hydraulics/formulas/gravity.ts";
import { crestPressureHead } from "../../../hydraulics/formulas/siphon.ts";
import { kinematicViscosity, waterDensity } from "../../../hydraulics/formulas/water.ts";
import { bisect } from "../../support/bisect.ts";
import { type Line, solveWater } from "../../support/waterNetwork.ts";
import type { Lists, Numbers } from "../given.ts";
import type { Checks } from "../hold.ts";

const at = (list: readonly number[], index: number): number => list[index] ?? Number.NaN;
/** A line of fixed f with its fittings. */
const fixed = (f: number, L: number, D: number, K = 0, gravity = g): Loss =>
  minorLoss.build({ K: (((f * L) / D + K) * g) / gravity, D });
const both = (a: Loss, b: Loss): Loss => ({
  loss: (Q) => a.loss(Q) + b.loss(Q),
  slope: (Q) => a.slope(Q) + b.slope(Q),
  content: (Q) => a.content(Q) + b.content(Q),
});
/** Flow of one line between two waters. */
const between = (drop: number, loss: Loss, firstGuess = 0.01) =>
  at(solveWater({ high: drop, low: 0 }, [{ from: "high", to: "low", loss, firstGuess }]).flows, 0);

/** A pump from one water through a line up to another: flow, and the head it gives. */
function duty(curve: readonly (readonly [number, number])[], lift: number, line: Loss, firstGuess: number) {
  const solution = solveWater({ low: 0, high: lift }, [
    { from: "low", to: "outlet", loss: pump.build({ curve }), isPump: true, firstGuess },
    { from: "outlet", to: "high", loss: line, firstGuess },
  ]);
  return { flow: at(solution.flows, 1), head: solution.head("outlet") };
}
const points = ({ curve_flow_m3_s, curve_head_m }: Lists) =>
  curve_flow_m3_s.map((flow, i) => [flow, at(curve_head_m, i)] as const);
const sixPoints = (n: Numbers, l: Lists) =>
  duty(points(l), n.lift_m, fixed(n.f_darcy, n.length_m, n.bore_m, n.K_exit), 0.005);
const smooth = (n: Numbers, l: Lists) =>
  duty(
    points(l),
    n.lift_m,
    both(
      darcyWeisbach.build({
        L: n.length_m,
        D: n.bore_m,
        roughness: n.roughness_m,
        viscosity: n.viscosity_Pa_s / n.density_kg_m3,
      }),
      minorLoss.build({ K: n.K_exit, D: n.bore_m }),
    ),
    0.02,
  );
const straight = (n: Numbers, { curve_m }: Lists) =>
  duty(
    [
      [0, at(curve_m, 0)],
      [10, at(curve_m, 0) + 10 * at(curve_m, 1)],
    ],
    n.lift_m,
    squareLaw(n.system_coefficient_s2_m5),
    5,
  );

/** A pump of given power, H = P/(ρgQ) by forty points, and two steel pipes side by side. */
function powered(n: Numbers, { length_m, bore_m }: Lists): readonly number[] {
  const perFlow = n.pump_hydraulic_power_W / (waterDensity(n.temperature_C) * g);
  const curve = Array.from({ length: 40 }, (_, i) => 0.01 * 1.05 ** i).map((flow) => [flow, perFlow / flow] as const);
  const viscosity = kinematicViscosity(n.temperature_C);
  const pipes: Line[] = [0, 1].map((i) => ({
    from: "outlet",
    to: "high",
    loss: darcyWeisbach.build({ L: at(length_m, i), D: at(bore_m, i), roughness: n.roughness_m, viscosity }),
  }));
  const { flows } = solveWater({ low: 0, high: n.lift_m }, [
    { from: "low", to: "outlet", loss: pump.build({ curve }), isPump: true, firstGuess: 0.02 },
    ...pipes,
  ]);
  return flows;
}

const sideBySide = (n: Numbers, { length_m, bore_m }: Lists) =>
  solveWater(
    { high: n.drop_m, low: 0 },
    [0, 1].map((i) => ({
      from: "high",
      to: "low",
      loss: fixed(n.f_darcy, at(length_m, i), at(bore_m, i), n.K_entry + n.K_exit),
    })),
  ).flows;

/** Three waters whose pipes meet in one point. */
function threeTanks(n: Numbers, { level_m, length_m, bore_m }: Lists, gravity = g): readonly number[] {
  return solveWater(
    { a: at(level_m, 0), b: at(level_m, 1), c: at(level_m, 2) },
    ["a", "b", "c"].map((from, i) => ({
      from,
      to: "meeting",
      loss: fixed(n.f_darcy, at(length_m, i), at(bore_m, i), 0, gravity),
    })),
  ).flows.map(Math.abs);
}
const tank = (i: number) => (n: Numbers, l: Lists) => at(threeTanks(n, l), i);
const tankVelocity = (i: number) => (n: Numbers, l: Lists) =>
  at(threeTanks(n, l, n.g_m_s2), i) / boreArea(at(l.bore_m, i));

/** Two pipes that share a flow: the head between their ends at which both carry it together. */
function split(n: Numbers, { length_m, bore_m }: Lists) {
  const flowsAt = (drop: number) =>
    solveWater(
      { high: drop, low: 0 },
      [0, 1].map((i) => ({
        from: "high",
        to: "low",
        loss: darcyWeisbach.build({
          L: at(length_m, i),
          D: at(bore_m, i),
          roughness: n.roughness_m,
          viscosity: n.viscosity_m2_s,
        }),
        firstGuess: 0.2,
      })),
    ).flows;
  const drop = bisect(1, 200, (h) => at(flowsAt(h), 0) + at(flowsAt(h), 1) - n.flow_m3_s);
  return { drop, small: at(flowsAt(drop), 0) };
}

/** The head at which a line of steel stands, before which a water pressed into it gives the flow wanted. */
const tapPressure = (n: Numbers, f: number, K: number) => {
  const area = boreArea(n.bore_m);
  const jet = (n.flow_m3_s / boreArea(n.nozzle_bore_m)) ** 2 / (2 * n.g_m_s2);
  const start = bisect(
    0,
    200,
    (head) =>
      at(
        solveWater({ street: head, tap: n.lift_m + jet }, [
          { from: "street", to: "tap", loss: fixed(f, n.length_m, n.bore_m, K + 1e-9, n.g_m_s2), firstGuess: 1e-3 },
        ]).flows,
        0,
      ) - n.flow_m3_s,
  );
  return n.density_kg_m3 * n.g_m_s2 * (start - (n.flow_m3_s / area) ** 2 / (2 * n.g_m_s2));
};

const oneLine = ({ fall_m, f_darcy, length_m, bore_m, K_sum }: Numbers) =>
  between(fall_m, fixed(f_darcy, length_m, bore_m, K_sum));
const twoWaters = ({ drop_m, f_darcy, length_m, bore_m, K_entry, K_exit }: Numbers) =>
  between(drop_m, fixed(f_darcy, length_m, bore_m, K_entry + K_exit), 0.1);
const frictionOnly = ({ fall_m, f_darcy, length_m, bore_m }: Numbers) =>
  between(fall_m, fixed(f_darcy, length_m, bore_m));

/** The whole head of the line for the loop of half the length beside it. */
const looped = ({ flow_before_m3_s, doubled_fraction }: Numbers) => {
  const pipe = (share: number) => hazenWilliams.build({ L: 5000 * share, D: 0.3, C: 130 });
  const drop = pipe(1).loss(flow_before_m3_s);
  const { flows } = solveWater({ high: drop, low: 0 }, [
    { from: "high", to: "joint", loss: pipe(doubled_fraction), firstGuess: 0.1 },
    { from: "high", to: "joint", loss: pipe(doubled_fraction), firstGuess: 0.1 },
    { from: "joint", to: "low", loss: pipe(1 - doubled_fraction), firstGuess: 0.1 },
  ]);
  return at(flows, 2);
};

/** A pump that sends water round a line: the K that holds a velocity. */
const recirculation = (n: Numbers) => {
  const wanted = n.velocity_m_s * boreArea(n.bore_m);
  const curve = Array.from({ length: 41 }, (_, i) => i * 0.001).map((Q) => [Q, 12 - 70 * Q - 4300 * Q * Q] as const);
  return bisect(
    1,
    200,
    (K) => wanted - duty(curve, 0, fixed(n.f_darcy, n.length_m, n.bore_m, n.K_exit + K), 0.01).flow,
  );
};

export const networkChecks: Checks = {
  "duty-six-points-flow": (n, l) => sixPoints(n, l).flow,
  "duty-six-points-head": (n, l) => sixPoints(n, l).head,
  "duty-50mm-flow": (n, l) => sixPoints(n, l).flow,
  "duty-50mm-head": (n, l) => sixPoints(n, l).head,
  "duty-smooth-pipe-114mm-flow": (n, l) => smooth(n, l).flow,
  "duty-smooth-pipe-114mm-head": (n, l) => smooth(n, l).head,
  "duty-line-flow": (n, l) => straight(n, l).flow,
  "duty-line-head": (n, l) => straight(n, l).head,
  "orifice-k-recirculation": recirculation,
  "pump-two-parallel-pipes-total": (n, l) => at(powered(n, l), 0),
  "pump-two-parallel-pipes-40mm": (n, l) => at(powered(n, l), 1),
  "pump-two-parallel-pipes-80mm": (n, l) => at(powered(n, l), 2),
  "basement-to-tap-no-loss": (n) => tapPressure(n, 0, 0),
  "basement-to-tap-friction": (n) => tapPressure(n, n.f_darcy, 0),
  "basement-to-tap-friction-and-fittings": (n) => tapPressure(n, n.f_darcy, n.K_sum),
  "parallel-two-tanks-50mm": (n, l) => at(sideBySide(n, l), 0),
  "parallel-two-tanks-100mm": (n, l) => at(sideBySide(n, l), 1),
  "parallel-two-tanks-both": (n, l) => at(sideBySide(n, l), 0) + at(sideBySide(n, l), 1),
  "parallel-three-pipes-total": (n, l) =>
    solveWater(
      { high: n.loss_m, low: 0 },
      [0, 1, 2].map((i) => ({
        from: "high",
        to: "low",
        loss: darcyWeisbach.build({
          L: at(l.length_m, i),
          D: at(l.bore_m, i),
          roughness: at(l.roughness_m, i),
          viscosity: n.viscosity_m2_s,
        }),
      })),
    ).flows.reduce((sum, flow) => sum + flow, 0),
  "three-tanks-a-1": tank(0),
  "three-tanks-a-2": tank(1),
  "three-tanks-a-3": tank(2),
  "three-tanks-b-1": tankVelocity(0),
  "three-tanks-b-2": tankVelocity(1),
  "three-tanks-b-3": tankVelocity(2),
  "parallel-split-loss": (n, l) => split(n, l).drop,
  "parallel-split-small": (n, l) => split(n, l).small,
  "looping-a-line": looped,
  "two-reservoirs-12in": twoWaters,
  "parallel-50mm": oneLine,
  "parallel-100mm": oneLine,
  // The source leaves out entry and exit for the single pipe.
  "parallel-one-bore": ({ fall_m, length_m, f_darcy, flow_m3_s }) =>
    bisect(0.02, 1, (D) => between(fall_m, fixed(f_darcy, length_m, D)) - flow_m3_s),
  "siphon-gate-2019": ({ drop_m, f, length_m, bore_m }) => between(drop_m, fixed(f, length_m, bore_m)),
  "siphon-12in-flow": twoWaters,
  "siphon-14in": oneLine,
  "siphon-100mm-flow": frictionOnly,
  "siphon-100mm-summit": (n) =>
    n.atmosphere_m +
    crestPressureHead(
      0,
      n.summit_above_level_m,
      frictionOnly(n) / boreArea(n.bore_m),
      (n.f_darcy * n.length_to_summit_m) / n.bore_m,
    ),
};
