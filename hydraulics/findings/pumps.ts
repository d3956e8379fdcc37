/** Where a pump stands on its curve, and curves that stand in for it. */

import { pumpSpeed } from "../document/defaults.ts";
import { greatestFlow } from "../network/pumps.ts";
import { bareSuction } from "./bareSuction.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, flowWords } from "./words.ts";

export const pumpOffCurve: Rule = ({ section, running, state: solved }) => {
  if (!running.converged) return [];
  return [...running.pumps].flatMap(([id, { state, flow, head }]): Finding[] => {
    const pump = section.parts.get(id);
    if (pump?.kind !== "pump") return [];
    if (state === "beyondCurve") {
      const greatest = greatestFlow(pump);
      return [
        {
          code: "pump-off-curve",
          severity: "warning",
          parts: [id],
          text: `${called(section, id)} runs beyond its curve: ${flowWords(flow)}, where its maker's curve ends at ${flowWords(greatest)}; the flow is a guess.`,
          remedy: "Throttle the line or take a pump whose curve reaches that far.",
          figures: { flow, greatest },
        },
      ];
    }
    if (state !== "shutOff" || bareSuction(solved, pump)) return [];
    // Without a pipe at its outlet it is a loose part, and said to be one.
    const leads = [...solved.network.pipes.values()].some(({ from }) => from.kind === "pump" && from.pump === id);
    if (!leads) return [];
    return [
      {
        code: "pump-shut-off",
        severity: "warning",
        parts: [id],
        text: `${called(section, id)} runs but delivers nothing: even its greatest lift of ${head.toFixed(2)} m does not get the water through.`,
        remedy: "Open what is shut on its line, bring the line's highest point down, or take a pump that lifts more.",
        figures: { head },
      },
    ];
  });
};

export const standInCurve: Rule = ({ section, running }) => {
  if (!running.converged) return [];
  return [...running.pumps].flatMap(([id, { flow, straightLineFlow, state }]): Finding[] => {
    const pump = section.parts.get(id);
    if (pump?.kind !== "pump" || pump.curve !== undefined || pumpSpeed(pump) <= 0 || state === "loose") return [];
    const straight =
      straightLineFlow === null ? "" : ` (${flowWords(flow)}; ${flowWords(straightLineFlow)} if it were straight)`;
    return [
      {
        code: "stand-in-curve",
        severity: "advice",
        parts: [id],
        text: `Of ${called(section, id)} only the greatest flow and lift are known: its curve is a parabola between them${straight}.`,
        remedy: "Enter points of the maker's curve where they can be had.",
        figures: { flow, ...(straightLineFlow === null ? {} : { straightLineFlow }) },
      },
    ];
  });
};
