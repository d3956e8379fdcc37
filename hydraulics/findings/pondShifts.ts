/** Ponds whose given level cannot last: they fall or rise by what enters less what leaves. */

import { formatTime } from "../document/formatTime.ts";
import type { Pond } from "../document/section.ts";
import { waterArea, waterVolume } from "../document/volumes.ts";
import { levelWords } from "../powerCut/words.ts";
import { bodyInflows } from "../solver/readings/inflows.ts";
import { atRest } from "../solver/rest.ts";
import type { Steady } from "../solver/steady.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, mmWords } from "./words.ts";

/** Of the pond's flow, the format's bound for a level that counts as steady. */
const steadyWithin = 0.02;

export const pondShifts: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  const flows = bodyInflows(state.network);
  return [...running.ponds].flatMap(([id, { netInflow, lossToGround }]): Finding[] => {
    const pond = section.parts.get(id);
    if (pond?.kind !== "pond") return [];
    let into = 0;
    let out = 0;
    for (const flow of flows) {
      if (flow.body !== id) continue;
      if (flow.into > 0) into += flow.into;
      else out -= flow.into;
    }
    if (Math.abs(netInflow) <= Math.max(steadyWithin * Math.max(into, out), atRest)) return [];
    const rate = (Math.abs(netInflow) / waterArea(pond, pond.waterLevel)) * 3600;
    const name = called(section, id);
    if (netInflow > 0) {
      const full = (waterVolume(pond, pond.rimLevel) - waterVolume(pond, pond.waterLevel)) / netInflow;
      return [
        {
          code: "pond-rises",
          severity: "warning",
          parts: [id],
          text: `More water enters ${name} than leaves it: from ${levelWords(pond.waterLevel)} it rises by ${mmWords(rate)} an hour and would reach its rim after ${formatTime(full)}.`,
          remedy:
            "Set its running level where what leaves balances what enters, or take as much out of it as comes in.",
          figures: { netInflow, rate: rate / 3600, timeToRim: full },
        },
      ];
    }
    const edge = highestIntake(state, pond);
    const bare =
      edge === null
        ? null
        : Math.max(0, waterVolume(pond, pond.waterLevel) - waterVolume(pond, Math.max(edge, pond.bedLevel))) /
          -netInflow;
    const lost = lossToGround > atRest;
    return [
      {
        code: "pond-falls",
        severity: lost ? "failure" : "warning",
        parts: [id],
        text: `${name} falls by ${mmWords(rate)} an hour from ${levelWords(pond.waterLevel)}, ${lost ? "for water is lost to the ground" : "for more leaves it than comes back"}${bare === null || edge === null ? "" : `; the intake at ${levelWords(edge)} is bare after ${formatTime(bare)}`}.`,
        remedy: lost
          ? "Close the way by which the water is lost; until then the pump empties the pond down to its intake."
          : "Set its running level where what comes back balances what leaves, or lead more water back into it.",
        figures: { netInflow, rate: -rate / 3600, ...(bare === null ? {} : { timeToIntake: bare }) },
      },
    ];
  });
};

/** The first intake to be bare: of pumps in the pond that deliver, and of suction lines that draw from it. */
function highestIntake(state: Steady, pond: Pond): number | null {
  const edges: number[] = [];
  for (const { pump, intake } of state.network.pumps.values())
    if (pump.in === pond.id && (intake?.Q ?? 0) > atRest) edges.push(pump.z);
  for (const pipe of state.network.pipes.values()) {
    for (const [end, mouth] of [
      [pipe.from, pipe.mouthFrom],
      [pipe.to, pipe.mouthTo],
    ] as const) {
      if (end.kind === "body" && end.opening.body === pond.id && (mouth?.Q ?? 0) > atRest) edges.push(end.opening.edge);
    }
  }
  return edges.length > 0 ? Math.max(...edges) : null;
}
