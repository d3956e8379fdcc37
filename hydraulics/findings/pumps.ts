/** Where a pump stands on its curve, and curves that stand in for it. */

import { pumpSpeed } from "../document/defaults.ts";
import type { PartId } from "../document/section.ts";
import { boreArea } from "../formulas/circle.ts";
import { greatestFlow } from "../network/pumps.ts";
import { bareSuction } from "../solver/readings/bareSuction.ts";
import { atRest } from "../solver/rest.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { boreWords, called, flowWords, listWords, speedWords } from "./words.ts";

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
          text: `${called(section, id)} runs beyond its curve: ${flowWords(flow)}, where its ${pumpSpeed(pump) === 1 ? "maker's curve" : "curve at this speed"} ends at ${flowWords(greatest)}; the flow is a guess.`,
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

/** A pump that is off lets water back (design notes, section 4). What others lift through its line goes round, and
 * nothing else says so: the flow that they deliver is the flow at their own outlets. */
export const passedBackwards: Rule = ({ section, running, state: { network } }) => {
  if (!running.converged) return [];
  const groupsOf = (id: PartId): readonly number[] =>
    [...network.pipes.values()].flatMap(({ from, to, group }) =>
      [from, to].some((end) => end.kind === "pump" && end.pump === id) ? [group] : [],
    );
  return [...running.pumps].flatMap(([id, { state, flow }]): Finding[] => {
    if (state !== "off" || flow >= -atRest) return [];
    const groups = groupsOf(id);
    const lifting = [...running.pumps].filter(
      ([other, reading]) => reading.flow > atRest && groupsOf(other).some((group) => groups.includes(group)),
    );
    const lifted = lifting.reduce((sum, [, reading]) => sum + reading.flow, 0);
    const of =
      lifted > 0
        ? ` of the ${flowWords(lifted)} that ${listWords(
            section,
            lifting.map(([other]) => other),
          )} ${lifting.length > 1 ? "lift" : "lifts"}`
        : "";
    return [
      {
        code: "pump-passed-backwards",
        severity: "warning",
        parts: [id],
        text: `${called(section, id)} is off, and nothing keeps water from running back through it: ${flowWords(flow)}${of}.`,
        remedy:
          "Put a check valve or a valve that is shut on its line, or take it off the line while it is not wanted.",
        figures: { back: -flow, ...(lifted > 0 ? { lifted } : {}) },
      },
    ];
  });
};

/** More power in the water than the pump draws cannot be. */
export const wattsTooLow: Rule = ({ section, running }) => {
  if (!running.converged) return [];
  return [...running.pumps].flatMap(([id, { efficiency, hydraulicPower, flow, head }]): Finding[] => {
    const pump = section.parts.get(id);
    if (pump?.kind !== "pump" || pump.watts === undefined || efficiency === null || efficiency <= 1) return [];
    const { watts } = pump;
    return [
      {
        code: "watts-too-low",
        severity: "warning",
        parts: [id],
        text: `${called(section, id)} is said to draw ${powerWords(watts)}, but lifting ${flowWords(flow)} by ${head.toFixed(2)} m takes ${powerWords(hydraulicPower)} in the water alone: the power or the curve is wrong.`,
        remedy: "Enter the watts from its rating plate, and check the flows and heads of its curve.",
        figures: { watts, hydraulicPower, efficiency },
      },
    ];
  });
};

/** m/s in a pump's outlet. Chosen here, no source: three times what is loud in a pipe. */
const absurd = 10;

/** The stub at a pump's outlet costs no head here, so that a wrong bore would pass in silence. */
export const outletNarrow: Rule = ({ section, running, state: { network } }) => {
  if (!running.converged) return [];
  return [...running.pumps].flatMap(([id, { flow }]): Finding[] => {
    const pump = section.parts.get(id);
    if (pump?.kind !== "pump" || pump.outletBore === undefined || !network.pumps.get(id)?.link?.running) return [];
    const velocity = flow / boreArea(pump.outletBore);
    if (velocity <= absurd) return [];
    return [
      {
        code: "outlet-narrow",
        severity: "warning",
        parts: [id],
        text: `${called(section, id)} is said to give ${flowWords(flow)} through an outlet of ${boreWords(pump.outletBore)}, at ${speedWords(velocity)}: no such pump does, and its outlet's loss is not counted.`,
        remedy: "Enter the bore of its outlet as it is.",
        figures: { velocity, outletBore: pump.outletBore, flow },
      },
    ];
  });
};

/** `45 W`, `0.8 W` */
const powerWords = (watts: number): string =>
  `${watts >= 10 ? Math.round(watts).toLocaleString("en-US") : Number(watts.toPrecision(2))} W`;

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
