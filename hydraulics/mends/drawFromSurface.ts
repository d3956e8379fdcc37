/** An overflow drawn from below, drawn from the level of its own top instead: nothing is left that can siphon. */
import { pipeLine } from "../document/geometry.ts";
import type { PipeEnd, Point } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { bottomDraws } from "../powerCut/bottomDraw.ts";
import { levelWords } from "../powerCut/words.ts";
import { relaid } from "./relaid.ts";
import type { Remedy } from "./remedy.ts";

export const drawFromSurface: Remedy = function* ({ section, assessed, finding }) {
  for (const draw of bottomDraws(assessed.state)) {
    if (!finding.parts.includes(draw.pipe) && !finding.parts.includes(draw.body)) continue;
    const pipe = section.parts.get(draw.pipe);
    const model = assessed.state.network.pipes.get(draw.pipe);
    if (pipe?.kind !== "pipe" || !model) continue;
    const side = model.from.kind === "body" && model.from.opening.body === draw.body ? "from" : "to";
    const end = pipe[side];
    if (!("part" in end)) continue;
    const line = pipeLine(section, pipe);
    const away: readonly Point[] = side === "from" ? line : [...line].reverse();
    const top = Math.max(...away.map(([, z]) => z));
    const crest = away.findLastIndex(([, z]) => z >= top - 1e-6);
    // The old riser falls away; the pipe begins where it reached its top.
    const route = away.slice(Math.max(1, crest), -1);
    const mouth: PipeEnd = { part: draw.body, z: Number(top.toFixed(4)), mouth: "side" };
    yield {
      label: `Draw ${called(section, pipe.id)} from ${levelWords(top)}, the level of its own top`,
      section: relaid(section, pipe, { route: side === "from" ? route : route.reverse(), [side]: mouth }),
    };
  }
};
