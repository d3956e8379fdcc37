/** Water that enters a vessel and leaves it again without passing its stone. */
import { mediaOf } from "../document/defaults.ts";
import { bedTop } from "../document/volumes.ts";
import { levelWords } from "../powerCut/words.ts";
import { bodyInflows } from "../solver/readings/inflows.ts";
import { flowsUpThrough } from "../solver/readings/vessel.ts";
import { atRest } from "../solver/rest.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, flowWords, percentWords } from "./words.ts";

/** Of what enters: less than this through the stone, up or down, and it does not filter. Chosen here, no source. */
const enough = 0.5;

export const mediaBypassed: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  const flows = bodyInflows(state.network);
  return [...running.vessels].flatMap(([id, { inflow, level }]): Finding[] => {
    const vessel = section.parts.get(id);
    if (vessel?.kind !== "vessel" || mediaOf(vessel).length === 0 || inflow <= atRest) return [];
    const top = bedTop(vessel);
    const mine = flows.filter(({ body }) => body === id);
    const passing = Math.max(0, ...flowsUpThrough(mine, Math.min(level, top)).map(Math.abs));
    const share = passing / inflow;
    if (share >= enough) return [];
    const isInside = passing <= atRest && mine.some((flow) => flow.into > atRest && flow.level < top);
    const where = isInside ? "at one level of it" : "above it";
    const through = passing <= atRest ? "none of it passes" : `only ${percentWords(share)} of it pass`;
    return [
      {
        code: "media-bypassed",
        severity: "advice",
        parts: [id],
        text: `${flowWords(inflow)} enter ${called(section, id)}, but ${through} its stone, which reaches up to ${levelWords(top)}: water comes in and leaves ${where}.`,
        remedy:
          "Let the supply fall into an open upright pipe that leads under the stone, or bring it in at the base, and take the water out above the stone.",
        figures: { inflow, passing, share, top },
      },
    ];
  });
};
