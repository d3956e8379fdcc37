/** Whether what leads out of a vessel carries what enters, with what is left of the freeboard. */
import { siteOf } from "../document/defaults.ts";
import type { PartId } from "../document/section.ts";
import { boreAlong, boreBeside, type Piece } from "../formulas/equivalentBore.ts";
import { piecesOf } from "../network/chains.ts";
import type { PipeModel } from "../network/network.ts";
import { levelWords } from "../powerCut/words.ts";
import { outletsOf } from "../solver/outlets.ts";
import { bodyInflows } from "../solver/readings/inflows.ts";
import { atRest } from "../solver/rest.ts";
import type { Control } from "../solver/running.ts";
import type { Steady } from "../solver/steady.ts";
import type { Finding } from "./finding.ts";
import { linesOf } from "./linesOf.ts";
import type { Rule } from "./rule.ts";
import { boreWords, called, flowWords } from "./words.ts";

/** Design notes, section 6. */
const wanted = 1.5;

const controlWords: Record<Control, string> = {
  inlet: "its mouth sets the limit",
  outlet: "its lower end sets the limit",
  route: "a high point of its route sets the limit",
  rim: "the sill sets the limit",
  none: "nothing leads out",
};

export const returnMarginLow: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  const { freeboard } = siteOf(section);
  const found: Finding[] = [];
  for (const [id, reading] of running.vessels) {
    const vessel = section.parts.get(id);
    if (vessel?.kind !== "vessel" || reading.overtops) continue;
    const outlets = outletsOf(state, vessel);
    const demand = reading.inflow - pumpedOut(state, id);
    if (outlets.length === 0 || demand <= atRest) continue;
    const margin = reading.returnCapacity / demand;
    if (margin >= wanted) continue;
    const ids = outlets.map((outlet) => (outlet.kind === "pipe" ? outlet.pipe.pipe.id : outlet.spillway.id));
    const most = `${called(section, id)}'s outlets carry ${flowWords(reading.returnCapacity)} at ${levelWords(vessel.rimLevel - freeboard)}, ${margin.toFixed(2)} times what enters`;
    found.push({
      code: "return-margin-low",
      severity: margin < 1 ? "failure" : "warning",
      parts: [id, ...ids],
      text:
        margin < 1
          ? `${most}: the freeboard of ${(freeboard * 1000).toFixed(0)} mm is eaten up, and ${controlWords[reading.control]}.`
          : `${most}, where ${wanted} times is wanted for leaves and slime; ${controlWords[reading.control]}.`,
      remedy: "Take the next larger return, add a second one, or set its mouth lower.",
      figures: { capacity: reading.returnCapacity, demand, margin, level: reading.level },
    });
  }
  return found;
};

/** m³/s that pumps and full lines take out of a vessel: no return has to carry it. */
function pumpedOut(state: Steady, vessel: PartId): number {
  let out = 0;
  for (const { pump, intake } of state.network.pumps.values())
    if (pump.in === vessel) out += Math.max(0, intake?.Q ?? 0);
  for (const { into } of linesOf(state, vessel)) out += Math.max(0, -into);
  return out;
}

/** Common practice, no source: the outlet larger than the inlet, whatever the numbers say. Several count as the one pipe
 * that would carry as much. A supply in pieces of several bores is as wide as one that loses as much; a return is as
 * wide as its narrowest piece: no pump pushes through there, and it clogs first. */
export const returnSmallerThanSupply: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  const found: Finding[] = [];
  for (const [id] of running.vessels) {
    const vessel = section.parts.get(id);
    if (vessel?.kind !== "vessel") continue;
    const supplies = linesOf(state, id).filter(({ into, leadsTo }) => into > atRest || (leadsTo && into > -atRest));
    const outlets = outletsOf(state, vessel);
    if (supplies.length === 0 || outlets.length === 0 || outlets.some(({ kind }) => kind === "sill")) continue;
    const lines = outlets.flatMap((outlet) => (outlet.kind === "pipe" ? [outlet.pipe] : []));
    const pipes = lines.map(({ pipe }) => pipe);
    const supply = boreBeside(supplies.map(({ pieces }) => boreAlong(pieces.map(pieceOf))));
    const outlet = boreBeside(
      lines.map((line) => Math.min(...piecesOf(state.network, line).map(({ pipe }) => pipe.bore))),
    );
    if (outlet >= supply - 1e-6) continue;
    const uneven = supplies.some(({ pieces }) => pieces.some(({ pipe }) => pipe.bore !== pieces[0]?.pipe.bore));
    found.push({
      code: "return-smaller-than-supply",
      severity: "warning",
      parts: [id, ...pipes.map((pipe) => pipe.id)],
      text: `The way out of ${called(section, id)} (${boreWords(outlet)}${pipes.length > 1 ? " together" : ""}) is smaller than its supply (${boreWords(supply)}${supplies.length > 1 ? " together" : uneven ? ", taken as one bore" : ""}).`,
      remedy: `Make the return larger than ${boreWords(supply)}: common practice, since it has no pump behind it and clogs first.`,
      figures: { returnBore: outlet, supplyBore: supply },
    });
  }
  return found;
};

/** One that is drawn without length has next to none. */
const pieceOf = ({ pipe, drawn, extra }: PipeModel): Piece => ({
  bore: pipe.bore,
  length: Math.max(drawn + extra, 1e-6),
});

/** A vessel that water enters and that nothing leads out of. */
export const noReturn: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  const entered = new Set(bodyInflows(state.network).flatMap(({ body, into }) => (into > 0 ? [body] : [])));
  return [...running.vessels.keys()].flatMap((id): Finding[] => {
    const vessel = section.parts.get(id);
    if (vessel?.kind !== "vessel" || outletsOf(state, vessel).length > 0) return [];
    const lines = linesOf(state, id);
    const pumped =
      lines.some(({ leadsTo }) => !leadsTo) || [...state.network.pumps.values()].some(({ pump }) => pump.in === id);
    const supplied = lines.length > 0 || entered.has(id);
    if (pumped || !supplied) return [];
    return [
      {
        code: "no-return",
        severity: "advice",
        parts: [id],
        text: `Water can enter ${called(section, id)}, but nothing leads out of it below its rim at ${levelWords(vessel.rimLevel)}.`,
        remedy: "Draw a return from it to the pond, its mouth well below the rim.",
        figures: { rim: vessel.rimLevel },
      },
    ];
  });
};
