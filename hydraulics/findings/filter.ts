/** The vessel as a filter: its size, the flow through it, the rise of the water, its flush. Rules of thumb are named
 * as such: no law of nature stands behind them. */

import { mediaOf } from "../document/defaults.ts";
import { bottomOf } from "../document/geometry.ts";
import type { Vessel } from "../document/section.ts";
import { levelWords, litreWords } from "../powerCut/words.ts";
import { flushPipes } from "../solver/outlets.ts";
import type { Steady } from "../solver/steady.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { called, listWords, mmWords, numberWords, percentWords } from "./words.ts";

/** m/h. Roughing filters of water works run at 0.3 to 1.5 (sswm.info, Roughing Filters). */
const clearsUpTo = 1.5;
/** m/h. Chosen here, no source: only dirt over about a quarter of a millimetre settles against it. */
const tooFast = 10;

export const upflowFast: Rule = ({ section, running }) => {
  if (!running.converged) return [];
  return [...running.vessels].flatMap(([id, { upflow, settlingDiameter }]): Finding[] => {
    const vessel = section.parts.get(id);
    const hourly = upflow * 3600;
    if (vessel?.kind !== "vessel" || mediaOf(vessel).length === 0 || hourly <= clearsUpTo) return [];
    const settles =
      settlingDiameter !== null && Number.isFinite(settlingDiameter)
        ? `, and only dirt over ${(settlingDiameter * 1000).toFixed(2)} mm settles against it`
        : "";
    return [
      {
        code: "upflow-fast",
        severity: hourly > tooFast ? "warning" : "advice",
        parts: [id],
        text: `Water rises through ${called(section, id)} at ${numberWords(hourly)} m/h${settles}; water works clear silt at 0.3 to 1.5 m/h.`,
        remedy:
          hourly > tooFast
            ? "Pump less, or take a vessel of a larger plan."
            : "Take it as a home for bacteria, or give it a larger plan if it is to clear the water as well.",
        figures: { upflow, ...(settles === "" ? {} : { settlingDiameter: settlingDiameter ?? 0 }) },
      },
    ];
  });
};

/** Common practice, no source. */
const leastShare = 0.1;

export const vesselSmall: Rule = ({ running, section }) => {
  if (!running.converged || running.vessels.size === 0 || running.ponds.size === 0) return [];
  let vessels = 0;
  let ponds = 0;
  for (const { grossVolume } of running.vessels.values()) vessels += grossVolume;
  for (const { volume } of running.ponds.values()) ponds += volume;
  if (ponds <= 0 || vessels >= leastShare * ponds) return [];
  const ids = [...running.vessels.keys()];
  return [
    {
      code: "vessel-small",
      severity: "advice",
      parts: ids,
      text: `${listWords(section, ids)} ${ids.length > 1 ? "hold" : "holds"} ${litreWords(vessels)} gross, ${percentWords(vessels / ponds)} of the ponds' ${litreWords(ponds)}; 10 % or more is common practice.`,
      remedy: `Take vessels of ${litreWords(leastShare * ponds)} or more in all, before stone.`,
      figures: { vessels, ponds, share: vessels / ponds },
    },
  ];
};

/** Vessel volumes an hour. Common practice, no source: about 6. */
const usualTurnover = { about: 6, least: 3, most: 12 };

export const turnoverOff: Rule = ({ section, running }) => {
  if (!running.converged) return [];
  const { about, least, most } = usualTurnover;
  return [...running.vessels].flatMap(([id, { turnover }]): Finding[] => {
    if (turnover === null || (turnover >= least && turnover <= most)) return [];
    return [
      {
        code: "turnover-off",
        severity: "advice",
        parts: [id],
        text: `${called(section, id)} passes ${numberWords(turnover)} times its own volume an hour, where about ${about} is common practice.`,
        remedy: turnover > most ? "Pump less, or take a larger vessel." : "Pump more, or take a smaller vessel.",
        figures: { turnover },
      },
    ];
  });
};

/** Of the vessel's height: a flush above it leaves the sludge lie. Chosen here, no source. */
const nearBase = 0.2;

export const noFlush: Rule = ({ section, running, state }) => {
  if (!running.converged) return [];
  return [...running.vessels.keys()].flatMap((id): Finding[] => {
    const vessel = section.parts.get(id);
    if (vessel?.kind !== "vessel") return [];
    const lowest = lowestFlush(state, vessel);
    const base = bottomOf(vessel);
    if (lowest !== null && lowest <= base + nearBase * (vessel.rimLevel - base)) return [];
    return [
      {
        code: "no-flush",
        severity: "advice",
        parts: [id],
        text:
          lowest === null
            ? `${called(section, id)} cannot be flushed: no pipe with a flush valve leaves it at its base (${levelWords(base)}).`
            : `${called(section, id)} is flushed from ${levelWords(lowest)}, ${mmWords(lowest - base)} above its base: the sludge below stays.`,
        remedy: "Lead a pipe with a flush valve out at the base, as large as the return.",
        figures: { base, ...(lowest === null ? {} : { lowest }) },
      },
    ];
  });
};

function lowestFlush(state: Steady, { id }: Vessel): number | null {
  let lowest: number | null = null;
  const offer = (level: number) => {
    lowest = lowest === null ? level : Math.min(lowest, level);
  };
  for (const pipe of flushPipes(state.network)) {
    for (const end of [pipe.from, pipe.to]) {
      if (end.kind === "body" && end.opening.body === id) offer(end.opening.level);
      // A flush that leaves another pipe of this vessel, or carries one on, draws from where that one does.
      const others = end.kind === "tee" ? [end.pipe] : end.kind === "joint" ? end.joins.map(({ pipe }) => pipe) : [];
      for (const other of others.map((each) => state.network.pipes.get(each)))
        for (const far of other ? [other.from, other.to] : [])
          if (far.kind === "body" && far.opening.body === id) offer(far.opening.level);
    }
  }
  return lowest;
}
