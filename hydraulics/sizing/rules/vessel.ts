import { mediaOf, siteOf, valveRole } from "../../document/defaults.ts";
import type { Pipe, Section, Vessel } from "../../document/section.ts";
import { bedTop, planArea } from "../../document/volumes.ts";
import { g } from "../../formulas/gravity.ts";
import type { RunningState } from "../../solver/running.ts";
import { type Given, judged, type Rule } from "./rule.ts";

export function vesselRules(
  section: Section,
  vessel: Vessel,
  pipes: readonly Pipe[],
  running: RunningState,
): readonly Rule[] {
  const reading = running.vessels.get(vessel.id);
  if (!reading) return [];
  const media = mediaOf(vessel);
  const into = widest(vessel, pipes, running, -1);
  const out = widest(vessel, pipes, running, 1);
  const rows: Given[] = [
    {
      code: "turnover",
      part: vessel.id,
      rule: "Vessel volumes an hour, about six",
      least: 4,
      most: 8,
      quantity: "turnover",
      has: reading.turnover,
      source: "common practice",
      where: "about 6; the span of a third either way is ours",
    },
    {
      code: "upflow",
      part: vessel.id,
      rule: "Upflow, as water works run gravel to clear silt",
      least: 0.3 / 3600,
      most: 1.5 / 3600,
      quantity: "upflow",
      has: reading.upflow > 0 ? reading.upflow : null,
      source: "published",
      where:
        "roughing filters, sswm.info and akvopedia.org; six volumes an hour in a tall vessel is 3 to 16 times that, which makes a biofilter of it",
    },
    {
      code: "bed-depth",
      part: vessel.id,
      rule: "Depth of the stone",
      least: 0.2,
      most: 0.8,
      quantity: "length",
      has: media.length > 0 ? bedTop(vessel) - vessel.baseLevel : null,
      source: "published",
      where: "beds 0.2 to 0.3 m (society's note, trade article); barrels run 0.5 to 0.8 m (common practice)",
    },
    {
      code: "coarse-below",
      part: vessel.id,
      rule: "Larger stone below, finer above",
      least: 1,
      most: null,
      quantity: "yesNo",
      has:
        media.length > 1
          ? Number(media.every((layer, k) => k === 0 || layer.grain <= (media[k - 1]?.grain ?? 0)))
          : null,
      source: "common practice",
      where: "no source",
    },
    {
      code: "flush",
      part: vessel.id,
      rule: "Can be flushed at its base",
      least: 1,
      most: null,
      quantity: "yesNo",
      has: Number(hasFlush(section, vessel, pipes)),
      source: "common practice",
      where: "no source; water works empty such beds through a large base drain",
    },
    {
      code: "outlet-larger",
      part: vessel.id,
      rule: "Outlet larger than inlet, bore by bore",
      least: 1.0001,
      most: null,
      quantity: "ratio",
      has: into !== null && out !== null ? out / into : null,
      source: "common practice",
      where: "no source",
    },
    {
      code: "margin",
      part: vessel.id,
      rule: "The return carries what comes, with room to spare",
      least: 1.5,
      most: null,
      quantity: "ratio",
      has: reading.returnMargin,
      source: "worked out",
      where: "this program's own warning; inlet control by FHWA HDS-5",
    },
    {
      code: "freeboard",
      part: vessel.id,
      rule: "Freeboard",
      least: siteOf(section).freeboard,
      most: null,
      quantity: "length",
      has: reading.freeboard,
      source: "common practice",
      where: "50 mm, or what this drawing asks for",
    },
    {
      code: "footing",
      part: vessel.id,
      rule: "Load on the footing, beside what a timber deck is made for",
      least: null,
      most: 5000,
      quantity: "pressure",
      has: (reading.filledMass * g) / planArea(vessel),
      source: "from memory",
      where: "decks are designed for 2 to 5 kPa: never on a deck",
    },
  ];
  return rows.map(judged);
}

const hasFlush = (section: Section, vessel: Vessel, pipes: readonly Pipe[]): boolean =>
  pipes.some(
    (pipe) =>
      [pipe.from, pipe.to].some((end) => "part" in end && end.part === vessel.id) &&
      [...section.parts.values()].some(
        (part) => part.kind === "valve" && part.on.pipe === pipe.id && valveRole(part) === "flush",
      ),
  );

/** m; the widest bore that carries water out of a vessel (1) or into it (-1); sills have none. */
function widest(vessel: Vessel, pipes: readonly Pipe[], running: RunningState, way: 1 | -1): number | null {
  let bore: number | null = null;
  for (const pipe of pipes) {
    const reading = running.pipes.get(pipe.id);
    if (!reading) continue;
    const out = Math.sign(reading.flow) * way;
    const end = out > 0 ? pipe.from : out < 0 ? pipe.to : null;
    if (end && "part" in end && end.part === vessel.id) bore = Math.max(bore ?? 0, pipe.bore);
  }
  return bore;
}
