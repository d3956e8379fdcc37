/** What builders go by, beside what this drawing has. Habits, not laws: each says where it comes from, and figures
 * that sources disagree about stand there as a span. Source: the design notes on the trade, sections 1 to 5, which name the
 * public material; "common practice" has no source. Nothing here is a finding: a rule that is not met may be right. */
import { mediaOf, siteOf, valveRole, ventEnd } from "../document/defaults.ts";
import { lineLength, pipeLine, placeAt } from "../document/geometry.ts";
import type { Part, PartId, Pipe, Pond, Section, Vessel } from "../document/section.ts";
import { bedTop, planArea, waterArea, waterVolume } from "../document/volumes.ts";
import type { Assessment } from "../report/assessment.ts";
import type { RunningState } from "../solver/running.ts";

export type RuleSource = "common practice" | "published" | "from memory" | "worked out";
export type RuleQuantity =
  | "share"
  | "turnover"
  | "upflow"
  | "length"
  | "velocity"
  | "ratio"
  | "flowPerWidth"
  | "time"
  | "pressure"
  | "yesNo";

export interface Rule {
  readonly code: string;
  /** of which part the figure is; null: of the drawing */
  readonly part: PartId | null;
  readonly rule: string;
  /** the span that is called right; null: open on that side */
  readonly least: number | null;
  readonly most: number | null;
  readonly quantity: RuleQuantity;
  /** null where this drawing has nothing of the kind */
  readonly has: number | null;
  /** null where it can not be said */
  readonly met: boolean | null;
  readonly source: RuleSource;
  readonly where: string;
}

type Given = Omit<Rule, "met">;

const judged = (rule: Given): Rule => ({
  ...rule,
  met:
    rule.has === null
      ? null
      : (rule.least === null || rule.has >= rule.least - 1e-9) && (rule.most === null || rule.has <= rule.most + 1e-9),
});

export function rulesOfThumb(section: Section, { running, powerCut }: Assessment): readonly Rule[] {
  if (!running.converged) return [];
  const parts = [...section.parts.values()].sort((a, b) => a.rank - b.rank);
  const of = <K extends Part["kind"]>(kind: K) =>
    parts.filter((part): part is Extract<Part, { kind: K }> => part.kind === kind);
  const ponds = of("pond");
  const vessels = of("vessel");
  return [
    ...wholeRules(section, ponds, vessels, running),
    ...vessels.flatMap((vessel) => vesselRules(section, vessel, of("pipe"), running)),
    ...of("pipe").flatMap((pipe) => pipeRules(section, pipe, running)),
    ...of("vent").flatMap((vent) => ventRules(section, vent, running)),
    ...of("spillway").map((sill) =>
      judged({
        code: "sheet",
        part: sill.id,
        rule: "Water over a sill, per width: light, usual, strong",
        // 50, 100 and 200 gph per inch
        least: (75e-3 / 3600) * 100,
        most: (298e-3 / 3600) * 100,
        quantity: "flowPerWidth",
        has: running.spillways.get(sill.id)?.perWidth ?? null,
        source: "published",
        where: "newspaper, nursery and trade columns, which disagree on the sheet",
      }),
    ),
    ...of("pump").flatMap((pump) => {
      const body = pump.in === undefined ? undefined : section.parts.get(pump.in);
      return body?.kind === "pond"
        ? [
            judged({
              code: "intake",
              part: pump.id,
              rule: "The pump's intake stands well off the bed (what a leak leaves for the fish)",
              least: 0.15,
              most: null,
              quantity: "length",
              has: pump.z - body.bedLevel,
              source: "published",
              where: "two accounts of ponds pumped empty in which fish lived on in 150 mm",
            }),
          ]
        : [];
    }),
    ...ponds.map((pond) => {
      const cut = powerCut?.ponds.get(pond.id);
      return judged({
        code: "pond-freeboard",
        part: pond.id,
        rule: "Room left under the pond's rim after a power cut",
        least: 0.05,
        most: null,
        quantity: "length",
        has: cut ? pond.rimLevel - cut.highestLevel : null,
        source: "common practice",
        where: "50 to 75 mm besides what drains back",
      });
    }),
  ];
}

function wholeRules(
  section: Section,
  ponds: readonly Pond[],
  vessels: readonly Vessel[],
  running: RunningState,
): readonly Rule[] {
  const pondVolume = ponds.reduce((sum, pond) => sum + waterVolume(pond, pond.waterLevel), 0);
  const pondArea = ponds.reduce((sum, pond) => sum + waterArea(pond, pond.waterLevel), 0);
  if (pondVolume <= 0) return [];
  const gross = vessels.reduce((sum, vessel) => sum + planArea(vessel) * (vessel.rimLevel - vessel.baseLevel), 0);
  const bed = vessels.reduce((sum, vessel) => sum + (mediaOf(vessel).length > 0 ? planArea(vessel) : 0), 0);
  const flow = [...running.pumps].reduce(
    (sum, [id, pump]) => sum + (drawsFromPond(section, id) ? Math.max(0, pump.flow) : 0),
    0,
  );
  return [
    judged({
      code: "vessel-share",
      part: null,
      rule: "Vessels' gross volume, as a share of the pond's",
      least: 0.1,
      most: null,
      quantity: "share",
      has: vessels.length > 0 ? gross / pondVolume : null,
      source: "common practice",
      where: "10 % or more, before the stone goes in; a large koi example has 25 to 30 %",
    }),
    judged({
      code: "bed-share",
      part: null,
      rule: "Gravel bed's area, as a share of the pond's surface",
      least: 0.1,
      most: null,
      quantity: "share",
      has: bed > 0 ? bed / pondArea : null,
      source: "published",
      where: "a water-garden society's note: 10 to 15 %, double for koi; others build 20 to 50 %",
    }),
    judged({
      code: "pond-turnover",
      part: null,
      rule: "Pond volumes an hour",
      least: 0.25,
      most: 2,
      quantity: "turnover",
      has: flow > 0 ? (flow * 3600) / pondVolume : null,
      source: "published",
      where: "nursery, society, club and sellers' pages: a quarter to two an hour",
    }),
  ];
}

const drawsFromPond = (section: Section, id: PartId): boolean => {
  const pump = section.parts.get(id);
  if (pump?.kind !== "pump") return false;
  return pump.in === undefined || section.parts.get(pump.in)?.kind === "pond";
};

function vesselRules(section: Section, vessel: Vessel, pipes: readonly Pipe[], running: RunningState): readonly Rule[] {
  const reading = running.vessels.get(vessel.id);
  if (!reading) return [];
  const flushed = pipes.some(
    (pipe) =>
      [pipe.from, pipe.to].some((end) => "part" in end && end.part === vessel.id) &&
      [...section.parts.values()].some(
        (part) => part.kind === "valve" && part.on.pipe === pipe.id && valveRole(part) === "flush",
      ),
  );
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
      has: Number(flushed),
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
      has: (reading.filledMass * 9.80665) / planArea(vessel),
      source: "from memory",
      where: "decks are designed for 2 to 5 kPa: never on a deck",
    },
  ];
  return rows.map(judged);
}

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

function pipeRules(section: Section, pipe: Pipe, running: RunningState): readonly Rule[] {
  const reading = running.pipes.get(pipe.id);
  if (!reading || reading.flow === 0) return [];
  if (reading.runs === "full")
    return [
      judged({
        code: "velocity",
        part: pipe.id,
        rule: "Velocity in a pumped pipe, for which the formula is told to hold",
        least: null,
        most: 3,
        quantity: "velocity",
        has: reading.velocity,
        source: "published",
        where: "irrigation glossary and public tables: about 1 to 3 m/s",
      }),
    ];
  const line = pipeLine(section, pipe);
  const fall = Math.abs((line[0]?.[1] ?? 0) - (line.at(-1)?.[1] ?? 0));
  const length = lineLength(line);
  return [
    judged({
      code: "self-venting",
      part: pipe.id,
      rule: "Froude number at which a return vents itself, V/√(gD) run full",
      least: null,
      most: 0.3,
      quantity: "ratio",
      has: reading.froude,
      source: "published",
      where: "three public notes after Hills, Chem. Eng. 1983; some write V²/(gD) with the same 0.3",
    }),
    judged({
      code: "fall",
      part: pipe.id,
      rule: "Fall of a return, per length",
      least: 0.02,
      most: null,
      quantity: "share",
      has: length > 0 ? fall / length : null,
      source: "published",
      where: "a seller's drawing note: a quarter inch a foot besides the losses",
    }),
  ];
}

function ventRules(section: Section, vent: Extract<Part, { kind: "vent" }>, running: RunningState): readonly Rule[] {
  const reading = running.vents.get(vent.id);
  const pipe = section.parts.get(vent.on.pipe);
  if (!reading || pipe?.kind !== "pipe") return [];
  const end = [pipe.to, pipe.from].find((each) => "part" in each && section.parts.get(each.part)?.kind === "vessel");
  const vessel = end && "part" in end ? section.parts.get(end.part) : undefined;
  if (vessel?.kind !== "vessel") return [];
  const level = running.vessels.get(vessel.id)?.level;
  const tee = placeAt(pipeLine(section, pipe), vent.on.at)[1];
  return [
    judged({
      code: "vent-tee",
      part: vent.id,
      rule: "The breather's tee stands above the vessel's water",
      least: 1e-6,
      most: null,
      quantity: "length",
      has: level === undefined ? null : tee - level,
      source: "common practice",
      where: "no source; a hobby pond diary keeps its vessel full so",
    }),
    judged({
      code: "vent-end",
      part: vent.id,
      rule: "Its open end stands above the vessel's rim",
      least: 0.15,
      most: null,
      quantity: "length",
      has: ventEnd(vent, tee) - vessel.rimLevel,
      source: "published",
      where: "ASSE 1001 (vacuum breakers): 6 in above the flood-level rim",
    }),
  ];
}
