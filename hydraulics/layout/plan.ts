/** The parts of a new layout, set out from sizes that are already chosen.
 *
 *            ┌──────────────────────────o─┐   o: the breather's tee, on a loop that stands over the rim
 *            │            ─────────────── │ ┌───────┐  the return leaves under the rim, falls a little on its
 *            │          │                 │ │░░░░░░░│  way and drops into the air over the pond
 *      ──────│──────────│───              └─┤░░░░░░░├─⋈─  flush
 *       ~~~~~│~~~~~~~~~~~~~
 *            ▲  pump
 */
import { pipeLine } from "../document/geometry.ts";
import {
  type Part,
  type PartId,
  type Pipe,
  type Pond,
  type Pump,
  partId,
  type Section,
  type Valve,
  type Vent,
  type Vessel,
} from "../document/section.ts";
import type { PipeSize, SizeSeries } from "../formulas/sizes.ts";
import type { LayoutAnswers } from "./answers.ts";
import { stoneOf, vesselShape } from "./shapes.ts";

export interface Sizes {
  readonly series: SizeSeries;
  readonly supply: PipeSize;
  readonly return: PipeSize;
  readonly returns: number;
  /** m from the rim down to the returns' crown */
  readonly crownBelow: number;
}

/** m the supply's falling leg stands off the vessel, and how far the loop stands over its rim */
const off = 0.2;
const overRim = 0.02;
/** m of the breather's end over the rim: codes against backflow ask for 150 mm */
const endOverRim = 0.2;
/** m over the pond's rim at which returns end */
const airGap = 0.02;
/** of its length: the fall of a return (design notes, section 4 of the trade's facts: 2 %) */
const fall = 0.02;
/** m between a return's mouth and the stone, and from the base to the axis of what enters there */
const clear = 0.02;

const mm = (value: number): number => Number(value.toFixed(3));
const plain = (value: number): number => (value === 0 ? 0 : mm(value));

export const ids = {
  pond: partId("pond"),
  filter: partId("filter"),
  pump: partId("pump"),
  supply: partId("supply"),
  breather: partId("breather"),
} as const;

const returnId = (k: number): PartId => partId(k === 0 ? "return" : `return-${k + 1}`);

export interface Levels {
  readonly rim: number;
  readonly loop: number;
  /** the returns' axis at the vessel, and their end over the pond */
  readonly returnFrom: number;
  readonly returnTo: number;
  /** m of fall that a return has beyond what its way asks for; below 0 it can not be led there */
  readonly spareFall: number;
  /** m that is left for stone */
  readonly bed: number;
}

/** Where things come to stand; from this alone it can be seen whether a plan is possible. */
export function levelsOf(answers: LayoutAnswers, pond: Pond, sizes: Sizes): Levels {
  const { height } = vesselShape(answers.vesselVolume);
  const rim = answers.baseHeight + height;
  const half = sizes.return.bore / 2;
  const returnFrom = mm(rim - sizes.crownBelow - half);
  const returnTo = mm(pond.rimLevel + airGap);
  return {
    rim: mm(rim),
    loop: mm(rim + overRim),
    returnFrom,
    returnTo,
    spareFall: returnFrom - fall * (answers.distance + inland(pond, sizes.returns - 1)) - returnTo - sizes.return.bore,
    bed: mm(returnFrom - half - clear - answers.baseHeight),
  };
}

/** m from the pond's edge to where return number k drops. */
const inland = (pond: Pond, k: number): number => Math.min(0.3 + 0.25 * k, pond.width / 2);

export function planOf(answers: LayoutAnswers, pond: Pond, sizes: Sizes): Section {
  const levels = levelsOf(answers, pond, sizes);
  const vessel = vesselOf(answers, pond, levels);
  const pump = pumpOf(answers, pond);
  const supply = supplyOf(pump, vessel, levels, sizes);
  const returns = Array.from({ length: sizes.returns }, (_, k) => returnOf(k, pond, vessel, levels, sizes));
  const [flush, valve] = flushOf(vessel, answers, sizes);
  const parts: Part[] = [pond, vessel, pump, supply, ...returns, flush, valve];
  const bare = sectionOf(parts);
  const line = pipeLine(bare, supply);
  // On the loop, short of its falling leg: the tee stands as high as anything of the line.
  const along = line
    .slice(1, 3)
    .reduce((sum, [x, z], k) => sum + Math.hypot(x - (line[k]?.[0] ?? x), z - (line[k]?.[1] ?? z)), 0);
  const breather: Vent = {
    id: ids.breather,
    rank: 0,
    kind: "vent",
    label: "Breather",
    on: { pipe: supply.id, at: mm(along - 0.1) },
    bore: 0.0125,
    openEndZ: mm(levels.rim + endOverRim),
  };
  return sectionOf([...parts.slice(0, 4), breather, ...parts.slice(4)]);
}

const sectionOf = (parts: readonly Part[]): Section => ({
  title: "New layout",
  // Hazen-Williams was not tested below 50 mm of bore, and most of these pipes are narrower.
  site: { groundLevel: 0, friction: "darcy-weisbach" },
  parts: new Map(parts.map((part, rank) => [part.id, { ...part, rank }])),
});

function vesselOf(answers: LayoutAnswers, pond: Pond, levels: Levels): Vessel {
  return {
    id: ids.filter,
    rank: 0,
    kind: "vessel",
    label: "Filter",
    x: mm(pond.width + answers.distance),
    plan: vesselShape(answers.vesselVolume).plan,
    baseLevel: plain(answers.baseHeight),
    rimLevel: levels.rim,
    media: stoneOf(levels.bed),
  };
}

function pumpOf(answers: LayoutAnswers, pond: Pond): Pump {
  const deep = pond.waterLevel - pond.bedLevel;
  return {
    id: ids.pump,
    rank: 0,
    kind: "pump",
    label: "Pump",
    x: mm(Math.min(0.4, pond.width / 4)),
    // Well off the bed: what a lost hose leaves to the fish.
    z: mm(pond.bedLevel + Math.max(0.12, 0.3 * deep)),
    in: pond.id,
    maxFlow: answers.pumpFlow,
    maxHead: answers.pumpLift,
  };
}

const named = (series: SizeSeries, size: PipeSize) => ({
  bore: size.bore,
  nominal: `${series.name}, ${size.name}`,
  material: series.material,
});

function supplyOf(pump: Pump, vessel: Vessel, { loop }: Levels, { series, supply }: Sizes): Pipe {
  const entry = mm(vessel.baseLevel + Math.max(0.06, supply.bore / 2 + clear));
  const leg = mm(vessel.x - off);
  return {
    id: ids.supply,
    rank: 0,
    kind: "pipe",
    label: "Supply",
    from: { part: pump.id },
    to: { part: vessel.id, z: entry, mouth: "side" },
    route: [
      [pump.x, loop],
      [leg, loop],
      [leg, entry],
    ],
    ...named(series, supply),
  };
}

function returnOf(k: number, pond: Pond, vessel: Vessel, levels: Levels, sizes: Sizes): Pipe {
  const x = mm(pond.width - inland(pond, k));
  return {
    id: returnId(k),
    rank: 0,
    kind: "pipe",
    label: k === 0 ? "Return" : `Return ${k + 1}`,
    from: { part: vessel.id, z: levels.returnFrom, mouth: "side" },
    to: { part: pond.id, x, z: levels.returnTo, mouth: "down" },
    route: [[x, mm(levels.returnFrom - fall * (vessel.x - x))]],
    ...named(sizes.series, sizes.return),
  };
}

function flushOf(vessel: Vessel, answers: LayoutAnswers, { series, return: back }: Sizes): readonly [Pipe, Valve] {
  // As large as the return, but not taller than the lowest fifth of the vessel, where the sludge lies.
  const most = 0.3 * (vessel.rimLevel - vessel.baseLevel);
  const size = series.sizes.filter(({ bore }) => bore <= Math.min(back.bore, most)).at(-1) ?? back;
  const z = mm(vessel.baseLevel + size.bore / 2 + 0.01);
  const plan = vessel.plan;
  const right = vessel.x + (plan.shape === "round" ? plan.diameter : plan.width);
  const end = mm(right + 0.7);
  const pipe: Pipe = {
    id: partId("flush"),
    rank: 0,
    kind: "pipe",
    label: "Flush",
    from: { part: vessel.id, z, mouth: "side" },
    // From a raised vessel it is led down to the ground.
    to: { open: true, x: end, z: answers.baseHeight > 0.1 ? 0.1 : z },
    route: answers.baseHeight > 0.1 ? [[end, z]] : [],
    ...named(series, size),
  };
  const valve: Valve = {
    id: partId("flush-valve"),
    rank: 0,
    kind: "valve",
    label: "Flush valve",
    type: "ball",
    on: { pipe: pipe.id, at: 0.2 },
    open: 0,
    role: "flush",
  };
  return [pipe, valve];
}
