/** Ways by which the running system puts water on the ground: vents, open ends, sills; and flushes left open. */
import { ventEnd } from "../document/defaults.ts";
import { levelWords } from "../powerCut/words.ts";
import { isFlush } from "../solver/outlets.ts";
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

export const openEndLosesWater: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  const found: Finding[] = [];
  for (const pipe of state.network.pipes.values()) {
    const { id } = pipe.pipe;
    const name = called(section, id);
    const flush = isFlush(pipe);
    const valves = pipe.valves.map(({ valve }) => valve.id);
    const first = pipe.stretches[0]?.link.Q ?? 0;
    const last = pipe.stretches.at(-1)?.link.Q ?? 0;
    const out = Math.max(pipe.from.kind === "air" ? -first : 0, pipe.to.kind === "air" ? last : 0);
    if (out > atRest) {
      found.push({
        code: "open-end-loses-water",
        severity: "failure",
        parts: [id, ...valves],
        text: `${name} ends in the air and puts ${flowWords(out)} on the ground while the pumps run${flush ? ": its flush valve is open" : ""}.`,
        remedy: flush
          ? "Shut its flush valve once the vessel has been flushed."
          : "Lead its end into the pond, or shut it with a valve.",
        figures: { flow: out },
      });
    } else if (flush && Math.max(Math.abs(first), Math.abs(last)) > atRest) {
      found.push({
        code: "flush-open",
        severity: "warning",
        parts: [id, ...valves],
        text: `The flush valve of ${name} is open, and ${flowWords(Math.max(Math.abs(first), Math.abs(last)))} pass it while the pumps run.`,
        remedy: "Shut the flush valve once the vessel has been flushed.",
        figures: { flow: Math.max(Math.abs(first), Math.abs(last)) },
      });
    }
  }
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
