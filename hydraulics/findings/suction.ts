/** Pressure under the air's: columns that part, low suction, pumps that must be primed. */

import { placeAt } from "../document/geometry.ts";
import type { PartId } from "../document/section.ts";
import { piecesOf } from "../network/chains.ts";
import { carriedOn, type Entered, turned } from "../network/onward.ts";
import { crestOf } from "../network/pipeModel.ts";
import { levelWords } from "../powerCut/words.ts";
import type { Steady } from "../solver/steady.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, mmWords } from "./words.ts";

/** m; design notes, sections 4 and 8 */
const parts = -7;
/** m; from memory: garden pumps lift poorly and soft hose flattens beyond it */
const low = -4;

export const suction: Rule = ({ section, running, state, powerCut }) => {
  if (!running.converged) return [];
  const found: Finding[] = [];
  for (const [id, reading] of running.pipes) {
    const head = reading.lowestPressureHead;
    const model = state.network.pipes.get(id);
    if (reading.runs !== "full" || head === null || head >= low || !model) continue;
    const [, z] = placeAt(model.line, reading.lowestPressureAt ?? 0);
    const pull = `${(-head).toFixed(1)} m of suction at ${levelWords(z)}`;
    if (head < parts) {
      found.push({
        code: "column-parts",
        severity: "failure",
        parts: [id],
        text: `${called(section, id)} would stand under ${pull}; beyond 7 m the water column parts, and the flow shown cannot be had.`,
        remedy: "Lower that point of the line, or put a vent there so that the line is not counted on to pull.",
        figures: { suction: -head, level: z },
      });
    } else {
      found.push({
        code: "suction-low",
        severity: "warning",
        parts: [id],
        text: `${called(section, id)} stands under ${pull}: hose may flatten, joints draw air, and the column parts beyond 7 m.`,
        remedy: "Lower that point of the line, or set the pump nearer to the water.",
        figures: { suction: -head, level: z },
      });
    }
  }
  for (const event of powerCut && !powerCut.failedAt ? powerCut.events : []) {
    if (event.code !== "columnParts") continue;
    found.push({
      code: "column-parts-in-cut",
      severity: "warning",
      parts: [event.part],
      text: `When the pumps stop, the suction at the top of ${called(section, event.part)} passes 7 m and its column parts by itself, which the verdict does not count on.`,
      remedy: "Put an ample vent at the top of the line, above the vessel's water.",
      figures: {},
    });
  }
  return found;
};

export const mustBePrimed: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  return [...state.network.pumps.values()].flatMap(({ pump }): Finding[] => {
    if (pump.in !== undefined) return [];
    for (const pipe of state.network.pipes.values()) {
      if (pipe.to.kind !== "pump" || pipe.to.pump !== pump.id) continue;
      const source = sourceOf(state, { pipe, side: "from" }, new Set());
      const top = Math.max(...piecesOf(state.network, pipe).map(crestOf));
      if (source === null || top <= source.level) continue;
      return [
        {
          code: "pump-must-be-primed",
          severity: "warning",
          parts: [pump.id, pipe.pipe.id],
          text: `The suction line of ${called(section, pump.id)} rises to ${levelWords(top)}, ${mmWords(top - source.level)} above the water of ${called(section, source.body)}: it must be filled before each start.`,
          remedy:
            "Set the pump and its suction line below the water, or use a pump that primes itself, with a foot valve.",
          figures: { top, level: source.level },
        },
      ];
    }
    return [];
  });
};

/** The highest body that an end leads to, over tees and joints; null where a pump feeds it. */
function sourceOf(
  state: Steady,
  { pipe, side }: Entered,
  seen: Set<PartId>,
): { readonly body: PartId; readonly level: number } | null {
  if (seen.has(pipe.pipe.id)) return null;
  seen.add(pipe.pipe.id);
  const end = pipe[side];
  if (end.kind === "body") {
    const model = state.network.bodies.get(end.opening.body);
    return model ? { body: end.opening.body, level: state.system.head[model.surface] as number } : null;
  }
  const joined = carriedOn(state.network, { pipe, side });
  if (joined.length > 0) {
    const sources = joined.flatMap((each) => sourceOf(state, turned(each), seen) ?? []);
    return sources.length > 0 ? sources.reduce((a, b) => (b.level > a.level ? b : a)) : null;
  }
  const main = end.kind === "tee" ? state.network.pipes.get(end.pipe) : undefined;
  return main ? sourceOf(state, { pipe: main, side: "from" }, seen) : null;
}
