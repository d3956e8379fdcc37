/** What has to be bought for a drawing: pipe by size with stock lengths and offcuts, fittings counted from the
 * drawing, valves, bulkheads, stone by layer, vessels and pumps.
 *
 * Lengths are the drawing's, axis to axis, the listed extra length with them: what a fitting takes off a pipe's end is
 * left in as allowance. Rigid pipe is cut leg by leg, since a bend is a fitting; what bends is bought in one piece.
 * Legs are laid into stock lengths longest first, each into the first that still takes it (first fit decreasing): never
 * more than 11/9 of the least number and one, and with a garden's few legs hardly ever one too many (from memory).
 * Stock lengths are common practice, no source: they differ by country and shop, so each can be typed over. */
import {
  countsBends,
  extraLengthOf,
  fittingsOf,
  mediaOf,
  mouthOf,
  pipeMaterial,
  valveType,
  ventEnd,
} from "../document/defaults.ts";
import { lineLength, pipeLine, placeAt, wallsAt } from "../document/geometry.ts";
import type { Body, Material, PartId, Pipe, PipeEnd, Point, Section } from "../document/section.ts";
import { bedSlices, planArea } from "../document/volumes.ts";
import { stoneDensity } from "../formulas/stoneDensity.ts";
import { bendsOf, samePlace } from "../network/pipeModel.ts";
import { type Cut, cutFrom } from "./cutFrom.ts";
import { fittingNames } from "./lossesOf.ts";

export type MaterialGroup = "pipe" | "fitting" | "valve" | "bulkhead" | "media" | "vessel" | "pump" | "sill";
/** What one price is for. */
export type Priced = "length" | "metre" | "piece" | "kilogram";

export interface MaterialRow {
  /** the same for the same thing in every drawing: prices are kept by it */
  readonly key: string;
  readonly group: MaterialGroup;
  readonly what: string;
  readonly priced: Priced;
  /** in what it is priced by */
  readonly amount: number;
  /** m of pipe as drawn, extra length included; of pipes only */
  readonly length: number | null;
  readonly cutting: Cut | null;
  /** m³ in bulk, of stone; of a vessel its gross volume */
  readonly volume: number | null;
  /** kg, of stone */
  readonly mass: number | null;
  readonly parts: readonly PartId[];
}

export interface MaterialOptions {
  /** m, by a row's key */
  readonly stock?: ReadonlyMap<string, number>;
}

/** m as sold. Common practice, no source. */
const usualStock: Readonly<Record<Material, number>> = {
  pvc: 5,
  pe: 25,
  hose: 25,
  corrugated: 25,
  copper: 5,
  galvanised: 6,
};

/** Pipe named in inches is sold by the ten feet. Common practice, no source. */
const inchStock = 3.048;
const usualFor = (pipe: Pipe): number =>
  / in\b/.test(pipe.nominal ?? "") && !bendsItself.has(pipeMaterial(pipe)) ? inchStock : usualStock[pipeMaterial(pipe)];

/** Sold by the metre, and bent where it lies. */
const bendsItself: ReadonlySet<Material> = new Set(["pe", "hose", "corrugated"]);

const materialNames: Readonly<Record<Material, string>> = {
  pvc: "PVC-U pipe",
  pe: "polyethylene pipe",
  hose: "smooth hose",
  corrugated: "corrugated hose",
  copper: "copper tube",
  galvanised: "galvanised steel pipe",
};

const mm = (metres: number): string => `${Number((metres * 1000).toFixed(1))} mm`;
const sizeOf = (pipe: Pipe): string => pipe.nominal ?? `bore ${mm(pipe.bore)}`;

export function materialsList(section: Section, options: MaterialOptions = {}): readonly MaterialRow[] {
  const parts = [...section.parts.values()].sort((a, b) => a.rank - b.rank);
  const pipes = parts.filter((part): part is Pipe => part.kind === "pipe");
  const counted = new Counted();
  for (const pipe of pipes) {
    fittingsOn(section, pipe, counted);
    for (const end of [pipe.from, pipe.to]) throughWalls(section, pipe, end, counted);
  }
  for (const part of parts) {
    if (part.kind === "valve") {
      const bore = boreOf(section, part.on.pipe);
      counted.add("valve", `${valveType(part)} valve, ${bore}`, part.id);
    } else if (part.kind === "checkValve")
      counted.add("valve", `check valve, ${boreOf(section, part.on.pipe)}`, part.id);
    else if (part.kind === "vent") {
      counted.add(
        "fitting",
        `tee for a breather, ${boreOf(section, part.on.pipe)} with a branch of ${mm(part.bore)}`,
        part.id,
      );
    } else if (part.kind === "spillway") counted.add("sill", `sill, ${part.width} m wide`, part.id);
    else if (part.kind === "pump")
      counted.add("pump", part.watts === undefined ? "pump" : `pump of ${part.watts} W`, part.id, ` ${part.id}`);
  }
  return [
    ...pipeRows(section, pipes, options, counted),
    ...riserRows(section),
    ...counted.rows(),
    ...mediaRows(section),
    ...vesselRows(section),
  ];
}

/** Things that are counted by the piece, the same ones together. */
class Counted {
  private readonly all = new Map<string, { group: MaterialGroup; what: string; count: number; parts: Set<PartId> }>();

  /** @param own makes two things of one name two rows */
  add(group: MaterialGroup, what: string, part: PartId, own = "", count = 1): void {
    if (count <= 0) return;
    const key = `${group}: ${what}${own}`;
    const row = this.all.get(key) ?? { group, what, count: 0, parts: new Set() };
    row.count += count;
    row.parts.add(part);
    this.all.set(key, row);
  }

  rows(): readonly MaterialRow[] {
    const order: readonly MaterialGroup[] = ["fitting", "valve", "bulkhead", "sill", "pump"];
    return [...this.all]
      .map(([key, { group, what, count, parts }]) =>
        plainRow({ key, group, what, priced: "piece", amount: count, parts: [...parts] }),
      )
      .sort((a, b) => order.indexOf(a.group) - order.indexOf(b.group));
  }
}

const plainRow = (
  row: Pick<MaterialRow, "key" | "group" | "what" | "priced" | "amount" | "parts"> & Partial<MaterialRow>,
): MaterialRow => ({ length: null, cutting: null, volume: null, mass: null, ...row });

const boreOf = (section: Section, id: PartId): string => {
  const pipe = section.parts.get(id);
  return pipe?.kind === "pipe" ? sizeOf(pipe) : "";
};

// Pipes ————————————————————————————————————————————————————————————————————————————————————————————

function pipeRows(
  section: Section,
  pipes: readonly Pipe[],
  { stock }: MaterialOptions,
  counted: Counted,
): readonly MaterialRow[] {
  const bySize = new Map<string, Pipe[]>();
  for (const pipe of pipes) {
    const key = `pipe: ${pipeMaterial(pipe)}, ${sizeOf(pipe)}`;
    bySize.set(key, [...(bySize.get(key) ?? []), pipe]);
  }
  return [...bySize].map(([key, same]) => {
    const first = same[0] as Pipe;
    const material = pipeMaterial(first);
    const sold = stock?.get(key) ?? usualFor(first);
    const flexible = bendsItself.has(material);
    const legs = same.flatMap((pipe) => legsOf(section, pipe, flexible));
    const length = same.reduce((sum, pipe) => sum + lineLength(pipeLine(section, pipe)) + extraLengthOf(pipe), 0);
    const cutting = cutFrom(legs, sold);
    counted.add("fitting", `coupling, ${sizeOf(first)}`, first.id, "", cutting.couplings);
    return plainRow({
      key,
      group: "pipe",
      what: `${materialNames[material]}, ${sizeOf(first)}`,
      // Hose is cut from the roll at the shop.
      priced: flexible ? "metre" : "length",
      amount: flexible ? length : cutting.count,
      length,
      cutting,
      parts: same.map(({ id }) => id),
    });
  });
}

/** m; straight pieces between fittings of what does not bend, else the whole. */
function legsOf(section: Section, pipe: Pipe, flexible: boolean): readonly number[] {
  const line = pipeLine(section, pipe);
  const drawn = lineLength(line);
  const extra = extraLengthOf(pipe);
  if (flexible || !countsBends(pipe)) return [drawn + extra].filter((leg) => leg > samePlace);
  const places = [
    0,
    ...bendsOf(line)
      .filter(({ turn }) => turn >= leastTurn)
      .map(({ at }) => at),
    drawn,
  ];
  const legs = places.slice(1).map((at, k) => at - (places[k] as number));
  return [...legs, extra].filter((leg) => leg > samePlace);
}

/** Risers of vents: a tube of the vent's own bore. */
function riserRows(section: Section): readonly MaterialRow[] {
  const byBore = new Map<string, { length: number; parts: PartId[] }>();
  for (const part of section.parts.values()) {
    if (part.kind !== "vent") continue;
    const pipe = section.parts.get(part.on.pipe);
    if (pipe?.kind !== "pipe") continue;
    const tee = placeAt(pipeLine(section, pipe), part.on.at)[1];
    const length = ventEnd(part, tee) - tee;
    if (length < samePlace) continue;
    const row = byBore.get(mm(part.bore)) ?? { length: 0, parts: [] };
    byBore.set(mm(part.bore), { length: row.length + length, parts: [...row.parts, part.id] });
  }
  return [...byBore].map(([bore, { length, parts }]) =>
    plainRow({
      key: `pipe: riser, ${bore}`,
      group: "pipe",
      what: `tube for breathers, bore ${bore}`,
      priced: "metre",
      amount: length,
      length,
      parts,
    }),
  );
}

// Fittings —————————————————————————————————————————————————————————————————————————————————————————

/** degrees; pipe is laid with a turn as small as that without a fitting (5 % of fall is 3°) */
const leastTurn = 5;
const near = 8;

function fittingsOn(section: Section, pipe: Pipe, counted: Counted): void {
  const size = sizeOf(pipe);
  for (const { type, k, count } of fittingsOf(pipe)) {
    const name = type === "other" ? `${fittingNames.other} of K ${k ?? 0}` : fittingNames[type];
    counted.add("fitting", `${name}, ${size}`, pipe.id, "", count);
  }
  if (countsBends(pipe))
    for (const { turn } of bendsOf(pipeLine(section, pipe)))
      if (turn >= leastTurn) counted.add("fitting", `${bendName(turn)}, ${size}`, pipe.id);
  for (const end of [pipe.from, pipe.to]) {
    if (!("pipe" in end)) continue;
    const main = section.parts.get(end.pipe);
    if (main?.kind !== "pipe") continue;
    const whole = lineLength(pipeLine(section, main));
    const joint = end.at < samePlace || end.at > whole - samePlace;
    if (!joint) counted.add("fitting", `tee, ${sizeOf(main)} with a branch of ${size}`, pipe.id);
    else if (main.bore === pipe.bore) counted.add("fitting", `coupling, ${size}`, pipe.id);
    else counted.add("fitting", `reducer, ${sizeOf(main)} to ${size}`, pipe.id);
  }
}

const bendName = (turn: number): string =>
  Math.abs(turn - 90) <= near
    ? fittingNames.elbow90
    : Math.abs(turn - 45) <= near
      ? fittingNames.elbow45
      : `bend ${Math.round(turn)}°`;

// Bulkheads ————————————————————————————————————————————————————————————————————————————————————————

/** A pipe that leaves its body through wall or floor needs a sealed fitting; over the rim it needs none. */
function throughWalls(section: Section, pipe: Pipe, end: PipeEnd, counted: Counted): void {
  if (!("part" in end)) return;
  const body = section.parts.get(end.part);
  if (body?.kind !== "pond" && body?.kind !== "vessel") return;
  const line = pipeLine(section, pipe);
  if (mouthOf(end) !== "side" && !pierces(body, end === pipe.from ? line : [...line].reverse())) return;
  const through = body.kind === "pond" ? "flange through a pond's wall" : "bulkhead fitting";
  counted.add("bulkhead", `${through}, ${sizeOf(pipe)}`, pipe.id);
}

/** Whether a line that begins inside a body leaves it below the rim. */
function pierces(body: Body, line: readonly Point[]): boolean {
  const floor = body.kind === "pond" ? body.bedLevel : body.baseLevel;
  const isInside = ([x, z]: Point): boolean => {
    const [left, right] = wallsAt(body, z);
    return x > left - samePlace && x < right + samePlace && z > floor - samePlace && z < body.rimLevel;
  };
  for (let k = 1; k < line.length; k++) {
    const a = line[k - 1] as Point;
    const b = line[k] as Point;
    if (isInside(b)) continue;
    // Where it leaves: by halves, between the last place inside and the next point outside.
    let inside = 0;
    let outside = 1;
    const at = (t: number): Point => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    if (!isInside(a)) return false;
    for (let i = 0; i < 60; i++) {
      const middle = (inside + outside) / 2;
      if (isInside(at(middle))) inside = middle;
      else outside = middle;
    }
    return at(inside)[1] < body.rimLevel - 1e-4;
  }
  return false;
}

// Stone and vessels ————————————————————————————————————————————————————————————————————————————————

function mediaRows(section: Section): readonly MaterialRow[] {
  const byGrain = new Map<string, { volume: number; mass: number; parts: PartId[]; what: string }>();
  for (const part of section.parts.values()) {
    if (part.kind !== "vessel" || mediaOf(part).length === 0) continue;
    for (const { from, to, grain, porosity } of bedSlices(part)) {
      const volume = (to - from) * planArea(part);
      const key = `media: ${mm(grain)}`;
      const row = byGrain.get(key) ?? { volume: 0, mass: 0, parts: [], what: `stone, ${mm(grain)}` };
      byGrain.set(key, {
        ...row,
        volume: row.volume + volume,
        mass: row.mass + volume * (1 - porosity) * stoneDensity,
        parts: row.parts.includes(part.id) ? row.parts : [...row.parts, part.id],
      });
    }
  }
  return [...byGrain].map(([key, { volume, mass, parts, what }]) =>
    plainRow({ key, group: "media", what, priced: "kilogram", amount: mass, volume, mass, parts }),
  );
}

function vesselRows(section: Section): readonly MaterialRow[] {
  return [...section.parts.values()].flatMap((part) => {
    if (part.kind !== "vessel") return [];
    const height = part.rimLevel - part.baseLevel;
    const plan =
      part.plan.shape === "round"
        ? `${short(part.plan.diameter)} m across`
        : `${short(part.plan.width)} m by ${short(part.plan.length)} m`;
    const what = `vessel, ${plan}, ${short(height)} m high`;
    return [
      plainRow({
        key: `vessel: ${what}, ${part.id}`,
        group: "vessel",
        what,
        priced: "piece",
        amount: 1,
        volume: planArea(part) * height,
        parts: [part.id],
      }),
    ];
  });
}

const short = (metres: number): string => String(Number(metres.toFixed(3)));
