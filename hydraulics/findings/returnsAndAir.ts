/** How gravity pipes run: air in them, siphons, part-full runs, narrow mouths, rough walls. */

import { pipeMaterial } from "../document/defaults.ts";
import { airInReturn, froudeFull, selfVentingFlow } from "../formulas/froude.ts";
import { corrugatedManningN, plasticManningN } from "../formulas/manning.ts";
import type { PipeModel } from "../network/network.ts";
import { bottomDraws } from "../powerCut/bottomDraw.ts";
import { levelWords } from "../powerCut/words.ts";
import { flushPipes } from "../solver/outlets.ts";
import { nearLevelFill } from "../solver/readings/pipe.ts";
import { atRest } from "../solver/rest.ts";
import type { PipeReading } from "../solver/running.ts";
import type { Steady } from "../solver/steady.ts";
import type { Finding } from "./finding.ts";
import { largestFlow } from "./largestFlow.ts";
import type { Rule } from "./rule.ts";
import { boreWords, called, flowWords, percentWords } from "./words.ts";

/** Gravity pipes in daily use: an open flush is said by its own finding, and is shut again. */
function inDailyUse({ network }: Steady): readonly PipeModel[] {
  const flushes = flushPipes(network);
  return [...network.pipes.values()].filter((pipe) => pipe.runs === "gravity" && !flushes.has(pipe));
}

export const airGulping: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  return inDailyUse(state).flatMap(({ pipe: { id, bore } }): Finding[] => {
    // Each stretch between tees by its own flow: of those that gulp, the fullest is told.
    const flow = (running.pipes.get(id) as PipeReading).stretches
      .map(([, , Q]) => Math.abs(Q))
      .filter((Q) => airInReturn(froudeFull(Q, bore)) === "gulps")
      .reduce((most, Q) => Math.max(most, Q), 0);
    if (flow === 0) return [];
    const froude = froudeFull(flow, bore);
    return [
      {
        code: "air-gulping",
        severity: "warning",
        parts: [id],
        text: `${called(section, id)} carries ${flowWords(flow)}, a Froude number of ${froude.toFixed(2)}: from 0.3 to 1 a falling pipe gulps air and surges (up to ${flowWords(selfVentingFlow(bore))} it vents itself).`,
        remedy: "Take the next larger return, or put a vent stub at the top of its first drop.",
        figures: { froude, flow, selfVentingFlow: selfVentingFlow(bore) },
      },
    ];
  });
};

export const maySiphon: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  return bottomDraws(state).map(
    ({ pipe, body, mouthLevel, crestLevel, froude, outletCovered }): Finding => ({
      code: "may-siphon",
      severity: "warning",
      parts: [pipe, body],
      text: `${called(section, pipe)} rises from its mouth at ${levelWords(mouthLevel)} to ${levelWords(crestLevel)} and ${outletCovered ? "ends under water" : "runs fast enough to fill"}: it may siphon ${called(section, body)} down to that mouth.`,
      remedy: `Put an open vent at its highest point (${levelWords(crestLevel)}), or draw from the surface.`,
      figures: { mouthLevel, crestLevel, froude },
    }),
  );
};

/** Design notes, section 6. */
const deepest = 0.75;

export const partFullDeep: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  return inDailyUse(state).flatMap(({ pipe: { id } }): Finding[] => {
    const { fillRatio, stretches } = running.pipes.get(id) as PipeReading;
    if (fillRatio === null || fillRatio <= deepest) return [];
    const flow = largestFlow(stretches);
    const full = fillRatio >= 1;
    return [
      {
        code: "part-full-deep",
        severity: "warning",
        parts: [id],
        text: full
          ? `A near-level run of ${called(section, id)} has too little fall to carry ${flowWords(flow)} part-full: it runs full there and pushes the water back.`
          : `A near-level run of ${called(section, id)} stands ${percentWords(fillRatio)} full at ${flowWords(flow)}, over the 75 % that leaves air its way.`,
        remedy: "Give the run more fall (2 % is usual) or take the next larger pipe.",
        figures: { fillRatio, flow },
      },
    ];
  });
};

/** m, under which surface tension counts: design notes, section 6 */
const smallMouth = 0.025;

export const smallBoreInlet: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  return inDailyUse(state).flatMap((model): Finding[] => {
    const { id, bore } = model.pipe;
    const flow = running.pipes.get(id)?.flow ?? 0;
    const upper = flow >= 0 ? model.from : model.to;
    if (Math.abs(flow) <= atRest || upper.kind !== "body" || bore >= smallMouth - 1e-9) return [];
    return [
      {
        code: "small-bore-inlet",
        severity: "warning",
        parts: [id],
        text: `The mouth of ${called(section, id)} is ${boreWords(bore)} wide: below 25 mm surface tension holds water back, and it carries less than the inlet equations say.`,
        remedy: "Take a bore of 25 mm or more; narrow mouths also clog first.",
        figures: { bore },
      },
    ];
  });
};

export const corrugatedManning: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  return inDailyUse(state).flatMap((model): Finding[] => {
    const { id } = model.pipe;
    const reading = running.pipes.get(id) as PipeReading;
    const { fillRatio } = reading;
    if (pipeMaterial(model.pipe) !== "corrugated" || fillRatio === null) return [];
    const flow = largestFlow(reading.stretches);
    const smooth = nearLevelFill(model, flow, plasticManningN) ?? 0;
    const stands = fillRatio >= 1 ? "runs full" : `stands ${percentWords(fillRatio)} full`;
    const instead = smooth >= 1 ? "run full too" : `stand ${percentWords(smooth)} full`;
    return [
      {
        code: "corrugated-manning",
        severity: "advice",
        parts: [id],
        text: `${called(section, id)} is ribbed inside (Manning's n ${corrugatedManningN}; highway tables give 0.018 to 0.025): a near-level run of it ${stands} at ${flowWords(flow)}, where smooth pipe would ${instead}.`,
        remedy: "Use smooth pipe for a return, or take corrugated hose a size larger.",
        figures: { fillRatio, smooth, flow },
      },
    ];
  });
};
