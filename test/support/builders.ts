/** Parts with sensible defaults, so that a test says only what it is about. The defaults make one working
 * drawing: a pond at the ground, a filter vessel beside it, a pump and pipes between them. Each part is a plain
 * object of the document's types; `section([...])` puts them in order. */
import type {
  CheckValve,
  Note,
  Part,
  PartId,
  Pipe,
  PipeEnd,
  Pond,
  Pump,
  Section,
  Site,
  Spillway,
  Valve,
  Vent,
  Vessel,
} from "../../hydraulics/document/section.ts";

/** The same with ids as plain text, at any depth. */
type Loose<T> = T extends PartId ? string : T extends object ? { readonly [K in keyof T]: Loose<T[K]> } : T;

/** A part as a test gives it: any of its fields; `undefined` takes a default away. */
type Given<P> = { readonly [K in keyof Omit<P, "kind" | "rank">]?: Loose<Omit<P, "kind" | "rank">[K]> | undefined };

function build<P extends Part>(defaults: Omit<P, "rank" | "id"> & { id: string }, given: Given<P>): P {
  const part: Record<string, unknown> = { ...defaults, rank: 0, ...given };
  for (const [name, value] of Object.entries(part)) if (value === undefined) delete part[name];
  return part as unknown as P;
}

const id = (text: string): PartId => text as PartId;

/** 3 m × 2 m × 0.85 m at the ground, water 40 mm under the rim. */
export const pond = (given: Given<Pond> = {}): Pond =>
  build<Pond>(
    { id: "pond", kind: "pond", x: 0, width: 3, length: 2, bedLevel: -0.8, rimLevel: 0.05, waterLevel: 0.01 },
    given,
  );

/** A round tub of 0.9 m with two layers, 0.75 m tall, right of the pond. */
export const vessel = (given: Given<Vessel> = {}): Vessel =>
  build<Vessel>(
    {
      id: "vessel",
      kind: "vessel",
      x: 3.6,
      plan: { shape: "round", diameter: 0.9 },
      baseLevel: 0,
      rimLevel: 0.75,
      media: [
        { depth: 0.2, grain: 0.045, porosity: 0.45 },
        { depth: 0.25, grain: 0.012, porosity: 0.4 },
      ],
    },
    given,
  );

export const pump = (given: Given<Pump> = {}): Pump =>
  build<Pump>(
    {
      id: "pump",
      kind: "pump",
      x: 0.4,
      z: -0.5,
      in: id("pond"),
      outletBore: 0.032,
      curve: [
        [0, 2.8],
        [0.0004, 2.4],
        [0.0008, 1.5],
        [0.0011, 0.4],
        [0.0012, 0],
      ],
      watts: 45,
    },
    // A pump with greatest values in place of points has no curve.
    "maxFlow" in given || "maxHead" in given ? { curve: undefined, ...given } : given,
  );

/** From the pump over a loop at 0.7 m into the base of the vessel; the loop's top ends at `at` 3.7 m. */
export const pipe = (given: Given<Pipe> = {}): Pipe =>
  build<Pipe>(
    {
      id: "supply",
      kind: "pipe",
      from: { part: id("pump") },
      to: { part: id("vessel"), z: 0.1, mouth: "side" },
      route: [
        [0.4, 0.7],
        [3.3, 0.7],
        [3.3, 0.1],
      ],
      bore: 0.034,
    },
    given,
  );

/** From the vessel's side at 0.6 m back to the pond. */
export const returnPipe = (given: Given<Pipe> = {}): Pipe =>
  pipe({
    id: "return",
    from: { part: "vessel", z: 0.6, mouth: "side" },
    to: { part: "pond", x: 2.7, z: 0.04, mouth: "down" },
    route: [[2.7, 0.58]],
    bore: 0.0678,
    ...given,
  });

/** From the vessel's base out over the ground. Give it a flush valve. */
export const flushPipe = (given: Given<Pipe> = {}): Pipe =>
  pipe({
    id: "flush",
    from: { part: "vessel", z: 0.05, mouth: "side" },
    to: openEnd(5.5, -0.05),
    route: [[5.5, 0.05]],
    bore: 0.045,
    ...given,
  });

export const openEnd = (x: number, z: number): PipeEnd => ({ open: true, x, z });

/** Shut, near the flush pipe's mouth. */
export const flushValve = (given: Given<Valve> = {}): Valve =>
  build<Valve>(
    { id: "flush-valve", kind: "valve", on: { pipe: id("flush"), at: 0.3 }, type: "ball", open: 0, role: "flush" },
    given,
  );

/** A throttle, fully open, on the supply. */
export const valve = (given: Given<Valve> = {}): Valve =>
  build<Valve>({ id: "valve", kind: "valve", on: { pipe: id("supply"), at: 1.5 }, type: "ball", open: 1 }, given);

export const checkValve = (given: Given<CheckValve> = {}): CheckValve =>
  build<CheckValve>({ id: "flap", kind: "checkValve", on: { pipe: id("supply"), at: 1 } }, given);

/** On the loop's top, ample, opening above the vessel's rim. */
export const vent = (given: Given<Vent> = {}): Vent =>
  build<Vent>({ id: "vent", kind: "vent", on: { pipe: id("supply"), at: 4 }, bore: 0.013, openEndZ: 1 }, given);

export const spillway = (given: Given<Spillway> = {}): Spillway =>
  build<Spillway>(
    { id: "sill", kind: "spillway", from: id("vessel"), to: id("pond"), crestZ: 0.65, width: 0.3, crest: "sharp" },
    given,
  );

/** Pond, pump, supply looped over +0.70 with a vent, vessel with its water at about +0.62, return, flush; with other
 * parts in place of those of the same id, further parts, and some left out. */
export function yard(change: { with?: readonly Part[]; without?: readonly string[] } = {}): Section {
  const parts = [pond(), vessel(), pump(), pipe(), vent(), returnPipe(), flushPipe(), flushValve()];
  const changed = new Map<string, Part>(parts.map((part) => [part.id, part]));
  for (const id of change.without ?? []) changed.delete(id);
  for (const part of change.with ?? []) changed.set(part.id, part);
  return section([...changed.values()]);
}

/** A tub without stone, fed over its rim by the pump. */
export const tubFedOverRim = (): readonly Part[] => [
  pond(),
  vessel({ media: [] }),
  pump(),
  pipe({
    to: { part: "vessel", x: 3.8, z: 0.72, mouth: "down" },
    route: [
      [0.4, 0.9],
      [3.8, 0.9],
    ],
  }),
];

/** A line over a top at a level; 3.6 m along it all the water falls by a branch to the tub. The main goes on to a higher
 * tub that nothing else feeds: it stands at the edge of its mouth. */
export const twoTubs = (top: number): readonly Part[] => [
  pond(),
  vessel({ media: [] }),
  vessel({ id: "high", x: 6, baseLevel: 1, rimLevel: 1.8, media: [] }),
  pump({
    curve: [
      [0, 4],
      [0.0008, 2.6],
      [0.0012, 0],
    ],
  }),
  pipe({
    to: { part: "high", z: 1.2, mouth: "side" },
    route: [
      [0.4, top],
      [5.5, top],
      [5.5, 1.2],
    ],
  }),
  pipe({
    id: "branch",
    from: { pipe: "supply", at: top + 4.1 },
    to: { part: "vessel", x: 4, z: 0.3, mouth: "down" },
    route: [[4, top]],
  }),
  returnPipe(),
];

export const note = (given: Given<Note> = {}): Note =>
  build<Note>({ id: "note", kind: "note", x: 1, z: 1, text: "Keep the vent clear" }, given);

/** The parts in this order. Two of one id are a slip of the test. */
export function section(
  parts: readonly Part[],
  { title = "Test", site = {} }: { title?: string; site?: Site } = {},
): Section {
  const byId = new Map<PartId, Part>(parts.map((part, rank) => [part.id, { ...part, rank }]));
  if (byId.size < parts.length) throw new Error(`two parts of one id: ${parts.map((part) => part.id).join(", ")}`);
  return { title, site, parts: byId };
}

/** The whole working drawing: held by its geometry when the pump stops. */
export const loopedSupply = (): Section =>
  section([pond(), vessel(), pump(), pipe(), vent(), returnPipe(), flushPipe(), flushValve()]);
