/** The grade line along a full pipe takes off each loss once: it comes to every node at the head that the solver found
 * there, less the velocity head (the energy equation; from memory, as in any textbook). */
import { expect, test } from "vitest";
import { g } from "../../hydraulics/formulas/gravity.ts";
import { readings } from "../../hydraulics/solver/readings.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { type Case, drawings, expectLaw, type Law, modes } from "../support/drawings.ts";

let stretches = 0;

const meetsItsNodes: Law<Case> = ({ section }) => {
  const state = solveSteady(section);
  const running = readings(state, { range: new Map(), straight: new Map() });
  if (!state.solved.converged || !running.converged) return [];
  const wrong: string[] = [];
  for (const [id, { runs, stretches: reaches, pipe, bears }] of state.network.pipes) {
    const line = running.pipes.get(id)?.gradeLine ?? [];
    // Where air stands in a leg the line is shown at the pipe, not under it; what hangs on no water has no pressure.
    if (runs !== "full" || line.some(({ grade, z }) => grade === z || grade === null)) continue;
    const area = (Math.PI * pipe.bore ** 2) / 4;
    for (const { start, end, i, j, link } of reaches) {
      const velocityHead = (link.Q / area) ** 2 / (2 * g);
      for (const [at, node, past] of [[start, i, -1] as const, [end, j, 1] as const]) {
        // A change of bore lies between this pipe's water and the node, where the other pipe's is.
        const change = bears
          .filter((item) => item.what === "bore" && Math.abs(item.at - at) < 1e-5)
          .reduce((sum, { kForward, kBackward }) => sum + (link.Q > 0 ? kForward : -kBackward) * velocityHead, 0);
        const wanted = (state.system.head[node] as number) - velocityHead + past * change;
        const there = line.filter((point) => Math.abs(point.at - at) < 1e-5).map(({ grade }) => grade as number);
        const off = Math.min(...there.map((grade) => Math.abs(grade - wanted)));
        if (!(off < 1e-5 + 1e-7 * Math.abs(wanted))) wrong.push(`${id} at ${at} m is ${off} m off`);
      }
      stretches++;
    }
  }
  return wrong;
};

for (const mode of modes) {
  test(`comes to each node at its head: ${mode} drawings`, () => {
    stretches = 0;
    const cases = drawings(mode, mode === "wild" ? [60, 80, 60] : [30, 40, 20]);
    const again = (section: Case["section"], wanted: Case["wanted"]) => ({ wanted, tag: "shrunk", section });

    expectLaw({ cases, again }, meetsItsNodes);
    expect(stretches).toBeGreaterThan(0);
  });
}
