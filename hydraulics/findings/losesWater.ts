/** Ways by which the running system puts water on the ground: vents, open ends, sills; and flushes left open. */
import { ventEnd } from "../document/defaults.ts";
import type { Section } from "../document/section.ts";
import { type Chain, chainsOf } from "../network/chains.ts";
import { type Entered, stretchAt } from "../network/onward.ts";
import { levelWords } from "../powerCut/words.ts";
import { hasFlush } from "../solver/outlets.ts";
import { atRest } from "../solver/rest.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, dailyWords, flowWords } from "./words.ts";

export const ventLosesWater: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  return [...running.vents].flatMap(([id, reading]): Finding[] => {
    const vent = section.parts.get(id);
    if (reading.spill <= atRest || reading.spillsTo !== "ground" || vent?.kind !== "vent") return [];
    const end = ventEnd(vent, reading.teeLevel);
    // With the vent shut: led higher than that, it spills no more.
    const stands = reading.teeLevel + (state.ratings.get(id)?.pressureHead ?? reading.pressureHead);
    return [
      {
        code: "vent-loses-water",
        severity: "failure",
        parts: [id, vent.on.pipe],
        text: `Water in ${called(section, vent.on.pipe)} would stand at ${levelWords(stands)}, over the open end of ${called(section, id)} (${levelWords(end)}): it spills ${dailyWords(reading.spill)} onto the ground.`,
        remedy: `Lead its open end higher than ${levelWords(stands)}, or let it end over the vessel or the pond, at or above the rim.`,
        figures: { spill: reading.spill, openEnd: end, stands },
      },
    ];
  });
};

/** m³/s out of an end into the air */
function outOf(end: Entered): number {
  if (end.pipe[end.side].kind !== "air") return 0;
  const Q = stretchAt(end)?.link.Q ?? 0;
  return end.side === "from" ? -Q : Q;
}

/** What a line loses at its end in the air, or lets past its flush; nothing where neither passes any. */
function lost(section: Section, { from, to, links }: Chain): Finding | undefined {
  const pieces = links.map(({ pipe }) => pipe);
  const flush = pieces.find(hasFlush)?.pipe.id;
  const valves = pieces.flatMap((piece) => piece.valves.map(({ valve }) => valve.id));
  const leak = outOf(to) > outOf(from) ? to : from;
  const out = outOf(leak);
  if (out > atRest) {
    const { id } = leak.pipe.pipe;
    return {
      code: "open-end-loses-water",
      severity: "failure",
      parts: [id, ...valves],
      text: `${called(section, id)} ends in the air and puts ${flowWords(out)} on the ground while the pumps run${flush ? ": its flush valve is open" : ""}.`,
      remedy: flush
        ? "Shut its flush valve once the vessel has been flushed."
        : "Lead its end into the pond, or shut it with a valve.",
      figures: { flow: out },
    };
  }
  const ends = pieces.flatMap(({ stretches }) => [stretches[0], stretches.at(-1)]);
  const flow = Math.max(...ends.map((stretch) => Math.abs(stretch?.link.Q ?? 0)));
  if (flush === undefined || flow <= atRest) return;
  return {
    code: "flush-open",
    severity: "warning",
    parts: [flush, ...valves],
    text: `The flush valve of ${called(section, flush)} is open, and ${flowWords(flow)} pass it while the pumps run.`,
    remedy: "Shut the flush valve once the vessel has been flushed.",
    figures: { flow },
  };
}

export const openEndLosesWater: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  const found = chainsOf(state.network).flatMap((line) => lost(section, line) ?? []);
  for (const [id, { flow }] of running.spillways) {
    const sill = section.parts.get(id);
    if (sill?.kind !== "spillway" || sill.to !== "ground" || flow <= atRest) continue;
    found.push({
      code: "sill-loses-water",
      severity: "failure",
      parts: [id, sill.from],
      text: `${called(section, sill.from)} spills ${flowWords(flow)} over ${called(section, id)} (${levelWords(sill.crestZ)}) onto the ground while the pumps run.`,
      remedy: "Raise the crest, lower the water, or let the sill spill into the pond.",
      figures: { flow, crest: sill.crestZ },
    });
  }
  return found;
};
