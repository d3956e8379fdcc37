/** Water over a rim while the pumps run. */

import { overflowOf } from "../document/defaults.ts";
import { levelWords } from "../powerCut/words.ts";
import { atRest } from "../solver/steady.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, flowWords } from "./words.ts";

export const overtopsRunning: Rule = ({ section, running }) => {
  if (!running.converged) return [];
  return [...running.vessels]
    .filter(([, reading]) => reading.overtops)
    .map(([id, reading]): Finding => {
      const part = section.parts.get(id);
      const to = part?.kind === "vessel" ? overflowOf(part) : "ground";
      const rim = part?.kind === "vessel" ? part.rimLevel : reading.level;
      return {
        code: "overtops-running",
        severity: "failure",
        parts: [id],
        text: `${called(section, id)} runs over its rim (${levelWords(rim)}): ${flowWords(reading.inflow)} enter, and ${flowWords(reading.overflow)} of it go ${to === "ground" ? "onto the ground" : `into ${called(section, to)}`}.`,
        remedy: "Give it a larger return or a second one, set the return lower, or throttle the supply.",
        figures: { rim, inflow: reading.inflow, overflow: reading.overflow, returnCapacity: reading.returnCapacity },
      };
    });
};

/** A pond's running level is given: one drawn over its rim spills for ever. */
export const pondOverRim: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  return [...state.network.bodies.values()].flatMap(({ body, rim }): Finding[] => {
    if (body.kind !== "pond" || rim.Q <= atRest) return [];
    return [
      {
        code: "pond-over-rim",
        severity: "failure",
        parts: [body.id],
        text: `${called(section, body.id)} is drawn with its water at ${levelWords(body.waterLevel)}, over its rim at ${levelWords(body.rimLevel)}.`,
        remedy: "Set the running water level below the rim, or raise the rim.",
        figures: { waterLevel: body.waterLevel, rim: body.rimLevel },
      },
    ];
  });
};
