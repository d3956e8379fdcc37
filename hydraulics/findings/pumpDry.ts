/** Pumps without water: at rest over it, or snatching air at the edge of an intake. */
import type { PartId } from "../document/section.ts";
import { levelWords } from "../powerCut/words.ts";
import { bareSuction } from "../solver/readings/bareSuction.ts";
import { atRest } from "../solver/rest.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, flowWords } from "./words.ts";

export const pumpDry: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  const found: Finding[] = [];
  for (const [id, reading] of running.pumps) {
    const model = state.network.pumps.get(id);
    const bare = model && reading.state === "shutOff" ? bareSuction(state, model.pump) : null;
    if (bare) {
      found.push({
        code: "pump-dry",
        severity: "failure",
        parts: [id, bare.pipe],
        text: `${called(section, id)} runs dry: the mouth of ${called(section, bare.pipe)} at ${levelWords(bare.edge)} stands at or above the water of ${called(section, bare.body)} (${levelWords(bare.level)}).`,
        remedy: "Set that mouth lower, well under the water but clear of the bed, or raise the water level.",
        figures: { intake: bare.edge, level: bare.level },
      });
    }
    if (!model || reading.state !== "dry") continue;
    const { z, in: body } = model.pump;
    if (reading.flow <= atRest) {
      found.push({
        code: "pump-dry",
        severity: "failure",
        parts: [id],
        text: `${called(section, id)} runs dry: its intake at ${levelWords(z)} stands at or above the water${body ? ` of ${called(section, body)}` : ""}.`,
        remedy: "Set its intake lower, well under the water but clear of the bed, or raise the water level.",
        figures: { intake: z },
      });
    } else found.push(snatches(id, called(section, id), z, reading.flow, body ? called(section, body) : null));
  }
  for (const pipe of state.network.pipes.values()) {
    for (const [end, mouth] of [
      [pipe.from, pipe.mouthFrom],
      [pipe.to, pipe.mouthTo],
    ] as const) {
      if (end.kind !== "body" || mouth?.state !== "edge" || Math.abs(mouth.Q) <= atRest) continue;
      found.push(
        snatches(
          pipe.pipe.id,
          called(section, pipe.pipe.id),
          end.opening.edge,
          Math.abs(mouth.Q),
          called(section, end.opening.body),
        ),
      );
    }
  }
  return found;
};

const snatches = (id: PartId, name: string, edge: number, flow: number, body: string | null): Finding => ({
  code: "pump-snatches-air",
  severity: "failure",
  parts: [id],
  text: `${name} can lift more than enters${body ? ` ${body}` : ""}: the water stands at the edge of its mouth (${levelWords(edge)}), and it snatches air at ${flowWords(flow)}.`,
  remedy: "Throttle the pump or take a smaller one, or let more water in.",
  figures: { edge, flow },
});
