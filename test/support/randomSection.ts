/** Random drawings that the reader accepts, repeatable from a seed.
 *
 * `sensible` ones are what people build: ponds with vessels beside them, supplies looped over or led low,
 * returns, flushes, breathers, check valves, in series and in parallel, on or under the water. `wild` ones join
 * anything to anything within ±3 m, for what has to hold of every network. `size` is about the number of vessels
 * (sensible) or pipes (wild); `anySection` shrinks it. */
import fc from "fast-check";
import { lineLength, pipeLine, placeAt } from "../../hydraulics/document/geometry.ts";
import type {
  Body,
  MediaLayer,
  Part,
  PartId,
  Pipe,
  PipeEnd,
  Point,
  Pond,
  Pump,
  Section,
  Vessel,
} from "../../hydraulics/document/section.ts";
import { checkValve, note, openEnd, pipe, pond, pump, section, spillway, valve, vent, vessel } from "./builders.ts";
import { type Seeded, seeded } from "./seeded.ts";

export interface Wanted {
  readonly seed: number;
  readonly size?: number;
  readonly mode?: "sensible" | "wild";
}

export function randomSection({ seed, size = 3, mode = "sensible" }: Wanted): Section {
  const sketch = new Sketch(seeded(seed * 31 + size * 7 + (mode === "wild" ? 1 : 0)));
  if (mode === "wild") drawWild(sketch, size);
  else drawSensible(sketch, size);
  return sketch.finish(`Random ${mode} drawing ${seed}, size ${size}`);
}

/** For property tests. A failing case names its seed, its size and its mode. */
export function anySection(
  mode: "sensible" | "wild" | "any" = "any",
  largest = 6,
): fc.Arbitrary<{ wanted: Wanted; section: Section }> {
  const modes = mode === "any" ? (["sensible", "wild"] as const) : ([mode] as const);
  return fc
    .record({
      seed: fc.noShrink(fc.nat(1_000_000)),
      size: fc.integer({ min: 1, max: largest }),
      mode: fc.constantFrom(...modes),
    })
    .map((wanted) => ({ wanted, section: randomSection(wanted) }));
}

/** Tenths of a millimetre, so that a failing drawing can be read. */
const round = (n: number): number => Math.round(n * 1e4) / 1e4;
const bores = [0.01, 0.013, 0.016, 0.02, 0.025, 0.0272, 0.034, 0.0426, 0.0532, 0.0678, 0.0814, 0.1];

class Sketch {
  readonly parts: Part[] = [];
  readonly random: Seeded;
  private count = 0;

  constructor(random: Seeded) {
    this.random = random;
  }

  name(word: string): string {
    return `${word}-${++this.count}`;
  }

  add<P extends Part>(part: P): P {
    this.parts.push(part);
    return part;
  }

  level(low: number, high: number): number {
    return round(this.random.between(low, high));
  }

  line(of: Pipe): readonly Point[] {
    return pipeLine(section(this.parts), of);
  }

  length(of: Pipe): number {
    return lineLength(this.line(of));
  }

  /** A place on a pipe at a share of its length, rounded down so that it stays on it. */
  along(of: Pipe, share: number): { pipe: PartId; at: number } {
    return { pipe: of.id, at: Math.floor(this.length(of) * share * 1e4) / 1e4 };
  }

  vent(on: { pipe: PartId; at: number }, riser: number): void {
    const bearer = this.parts.find((part): part is Pipe => part.id === on.pipe && part.kind === "pipe");
    if (!bearer) throw new Error(`no pipe ${on.pipe}`);
    const tee = placeAt(this.line(bearer), on.at)[1];
    const bore = this.random.pick([0.003, 0.006, 0.008, 0.0131, 0.02]);
    const open = this.random.chance(0.3) ? { open: round(this.random.between(0.05, 1)) } : {};
    const end = this.random.chance(0.15) ? {} : { openEndZ: Math.ceil((tee + riser) * 1e4) / 1e4 };
    this.add(vent({ id: this.name("vent"), on, bore, openEndZ: undefined, ...open, ...end }));
  }

  finish(title: string): Section {
    const random = this.random;
    const parts = random.chance(0.3) ? shuffled(this.parts, random) : this.parts;
    const site = {
      ...(random.chance(0.5) ? { waterTemperature: round(random.between(2, 30)) } : {}),
      ...(random.chance(0.3) ? { friction: "darcy-weisbach" as const } : {}),
      ...(random.chance(0.2) ? { freeboard: round(random.between(0, 0.1)) } : {}),
    };
    return section(parts, { title, site });
  }
}

function shuffled<T>(list: readonly T[], random: Seeded): T[] {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    const j = random.whole(0, i);
    [out[i], out[j]] = [out[j] as T, out[i] as T];
  }
  return out;
}

// --- parts --------------------------------------------------------------------------------------------

function drawPond(sketch: Sketch, x: number, rim: number): Pond {
  const { random } = sketch;
  const depth = random.between(0.5, 1.4);
  const slope = random.chance(0.3) ? { sideSlope: round(random.between(0.05, 0.35)) } : {};
  return sketch.add(
    pond({
      id: sketch.name("pond"),
      x: round(x),
      width: sketch.level(1.5, 5),
      length: sketch.level(1.2, 4),
      bedLevel: round(rim - depth),
      rimLevel: round(rim),
      waterLevel: round(rim - random.between(0.02, 0.12)),
      ...slope,
    }),
  );
}

function drawVessel(sketch: Sketch, x: number, base: number): Vessel {
  const { random } = sketch;
  const height = random.between(0.4, 1);
  const media: MediaLayer[] = [];
  const layers = random.whole(0, 3);
  for (let i = 0; i < layers; i++) {
    media.push({
      depth: sketch.level(0.05, (height * 0.6) / layers),
      grain: random.pick([0.006, 0.01, 0.012, 0.02, 0.03, 0.045, 0.06]),
      porosity: round(random.between(0.36, 0.48)),
    });
  }
  const plan = random.chance(0.5)
    ? { shape: "round" as const, diameter: sketch.level(0.4, 1.4) }
    : { shape: "rectangle" as const, width: sketch.level(0.4, 1.8), length: sketch.level(0.3, 1.2) };
  const clogging = random.chance(0.2) ? { clogging: round(random.between(1, 15)) } : {};
  return sketch.add(
    vessel({
      id: sketch.name("vessel"),
      x: round(x),
      plan,
      baseLevel: round(base),
      rimLevel: round(base + height),
      media,
      ...clogging,
    }),
  );
}

function drawPump(sketch: Sketch, at: { x: number; z: number; in?: PartId }): Pump {
  const { random } = sketch;
  const maxHead = random.between(1.2, 5);
  const maxFlow = random.between(0.0003, 0.003);
  const points = random.whole(2, 6);
  // Anything from a straight line to a hill, as makers' curves are.
  const bulge = random.between(1, 2.2);
  const curve = Array.from({ length: points }, (_, i): [number, number] => {
    const share = i / (points - 1);
    return [Number((maxFlow * share).toPrecision(5)), i === points - 1 ? 0 : round(maxHead * (1 - share ** bulge))];
  });
  const source = random.chance(0.75) ? { curve } : { maxFlow: Number(maxFlow.toPrecision(4)), maxHead: round(maxHead) };
  return sketch.add(
    pump({
      id: sketch.name("pump"),
      x: round(at.x),
      z: round(at.z),
      in: at.in,
      outletBore: random.chance(0.7) ? random.pick([0.02, 0.025, 0.032, 0.04]) : undefined,
      watts: random.chance(0.6) ? random.whole(10, 200) : undefined,
      ...(random.chance(0.2) ? { speed: random.pick([0, 0.5, 0.7, 0.9]) } : {}),
      ...(random.chance(0.2) ? { stoppedK: random.whole(1, 60) } : {}),
      ...source,
    }),
  );
}

function drawPipe(
  sketch: Sketch,
  word: string,
  given: { from: PipeEnd; to: PipeEnd; route?: readonly Point[]; bore: number },
): Pipe {
  const { random } = sketch;
  const { from, to, bore } = given;
  return sketch.add(
    pipe({
      id: sketch.name(word),
      from,
      to,
      route: given.route?.map(([x, z]): Point => [round(x), round(z)]),
      bore,
      ...(random.chance(0.5)
        ? { material: random.pick(["pvc", "pe", "hose", "corrugated", "copper", "galvanised"] as const) }
        : {}),
      ...(random.chance(0.15) ? { bends: "none" as const } : {}),
      ...(random.chance(0.15) ? { extraLength: sketch.level(0, 3) } : {}),
      ...(random.chance(0.2)
        ? {
            fittings: [
              { type: random.pick(["elbow90", "swept90", "teeRun", "strainer"] as const), count: random.whole(1, 4) },
            ],
          }
        : {}),
    }),
  );
}

const widthOf = (body: Body): number =>
  body.kind === "pond" ? body.width : body.plan.shape === "round" ? body.plan.diameter : body.plan.width;
const middleOf = (body: Body): number => body.x + widthOf(body) / 2;
const bottomOf = (body: Body): number => (body.kind === "pond" ? body.bedLevel : body.baseLevel);

// --- what people build --------------------------------------------------------------------------------

function drawSensible(sketch: Sketch, size: number): void {
  const { random } = sketch;
  const low = drawPond(sketch, 0, random.between(-0.1, 0.15));
  let x = low.x + low.width + random.between(0.3, 1);
  const high = random.chance(0.25) ? drawPond(sketch, x, random.between(0.5, 1)) : null;
  if (high) {
    x += high.width + random.between(0.3, 0.8);
    sketch.add(
      spillway({
        id: sketch.name("sill"),
        from: high.id,
        to: low.id,
        crestZ: round(high.waterLevel - random.between(0, 0.02)),
        width: sketch.level(0.1, 0.6),
        crest: random.pick(["sharp", "broad"] as const),
      }),
    );
  }
  const receiver = high && random.chance(0.6) ? high : low;
  const inSeries = size > 1 && random.chance(0.5);
  const vessels: Vessel[] = [];
  for (let i = 0; i < size; i++) {
    // In series each stands lower than the one before, so that it can be fed by gravity.
    const base = inSeries ? 0.15 + (size - 1 - i) * random.between(0.5, 0.8) : random.between(-0.3, 0.9);
    const made = drawVessel(sketch, x, base + (receiver === high ? 0.8 : 0));
    vessels.push(made);
    x += widthOf(made) + random.between(0.4, 1);
  }
  let supply: Pipe | null = null;
  vessels.forEach((each, i) => {
    if (inSeries && i > 0) return;
    // A vessel beside another may hang on its neighbour's supply by a tee.
    supply = supply && random.chance(0.35) ? drawBranch(sketch, supply, each) : drawSupply(sketch, low, each);
  });
  vessels.forEach((each, i) => {
    const next = inSeries ? vessels[i + 1] : undefined;
    drawOutlets(sketch, each, next ?? receiver);
    if (random.chance(0.5)) drawFlush(sketch, each);
  });
  if (random.chance(0.2)) drawLooseThings(sketch, low);
}

/** From the pond into a vessel: looped over the water, led low, or ending over the rim. */
function drawSupply(sketch: Sketch, from: Pond, to: Vessel): Pipe {
  const { random } = sketch;
  const bore = random.pick(bores.slice(2, 9));
  const px = from.x + random.between(0.2, 0.5) * from.width;
  const outside = random.chance(0.2);
  const pz = outside
    ? from.waterLevel + random.between(-0.2, 0.4)
    : from.bedLevel + random.between(0.15, 0.6) * (from.waterLevel - from.bedLevel);
  const lift = drawPump(sketch, outside ? { x: from.x + from.width + 0.15, z: pz } : { x: px, z: pz, in: from.id });
  if (outside) {
    const mouth: PipeEnd = { part: from.id, x: round(px), z: round(from.bedLevel + 0.2), mouth: "down" };
    drawPipe(sketch, "suction", {
      from: mouth,
      to: { part: lift.id },
      route: [[px, lift.z]],
      bore: random.pick(bores.slice(5, 10)),
    });
  }
  const before = to.x - 0.15;
  const style = random.pick(["loop", "loop", "low", "gap"] as const);
  const entry = round(to.baseLevel + random.between(0.06, 0.15));
  const top =
    style === "low"
      ? to.baseLevel + 0.05
      : style === "gap"
        ? to.rimLevel + 0.15
        : to.rimLevel + random.between(-0.4, 0.2);
  const overRim: PipeEnd = { part: to.id, x: round(middleOf(to)), z: round(to.rimLevel + 0.05), mouth: "down" };
  const supply = drawPipe(sketch, "supply", {
    from: { part: lift.id },
    to: style === "gap" ? overRim : { part: to.id, z: entry, mouth: "side" },
    route:
      style === "gap"
        ? [
            [lift.x, top],
            [middleOf(to), top],
          ]
        : [
            [lift.x, top],
            [before, top],
            [before, entry],
          ],
    bore,
  });
  if (random.chance(style === "loop" ? 0.75 : 0.15)) {
    const rise = Math.abs(top - lift.z);
    sketch.vent(
      { pipe: supply.id, at: Math.floor((rise + random.between(0.1, 0.95) * Math.abs(before - lift.x)) * 1e4) / 1e4 },
      random.between(0, 0.5),
    );
  }
  if (random.chance(0.3))
    sketch.add(
      checkValve({
        id: sketch.name("flap"),
        on: sketch.along(supply, 0.2),
        ...(random.chance(0.2) ? { stuckOpen: true } : {}),
        ...(random.chance(0.2) ? { openingHead: 0.35 } : {}),
      }),
    );
  if (random.chance(0.3))
    sketch.add(
      valve({
        id: sketch.name("throttle"),
        on: sketch.along(supply, 0.3),
        type: random.pick(["ball", "gate"] as const),
        open: random.chance(0.1) ? 0 : round(random.between(0.2, 1)),
      }),
    );
  if (random.chance(0.15)) {
    const second = drawPump(sketch, { x: px + 0.2, z: from.bedLevel + 0.2, in: from.id });
    drawPipe(sketch, "joiner", { from: { part: second.id }, to: sketch.along(supply, random.between(0.1, 0.6)), bore });
  }
  return supply;
}

function drawBranch(sketch: Sketch, off: Pipe, to: Vessel): Pipe {
  const { random } = sketch;
  const entry = round(to.baseLevel + 0.1);
  const before = to.x - 0.12;
  const top = to.rimLevel + random.between(-0.2, 0.3);
  return drawPipe(sketch, "branch", {
    from: sketch.along(off, random.between(0.2, 0.8)),
    to: { part: to.id, z: entry, mouth: "side" },
    route: [
      [before, top],
      [before, entry],
    ],
    bore: random.pick(bores.slice(2, 8)),
  });
}

/** One or two ways out of a vessel: side mouths, a standpipe, a draw from below, or a sill. */
function drawOutlets(sketch: Sketch, from: Vessel, to: Body): void {
  const { random } = sketch;
  const ways = random.chance(0.2) ? 2 : random.chance(0.03) ? 0 : 1;
  for (let i = 0; i < ways; i++) {
    const level = round(from.rimLevel - random.between(0.12, 0.25));
    if (random.chance(0.12)) {
      sketch.add(
        spillway({
          id: sketch.name("sill"),
          from: from.id,
          to: to.id,
          crestZ: round(from.rimLevel - random.between(0.03, 0.12)),
          width: sketch.level(0.1, 0.5),
          crest: random.pick(["sharp", "broad"] as const),
        }),
      );
      continue;
    }
    const tx = to.x + random.between(0.6, 0.9) * widthOf(to);
    const surface = to.kind === "pond" ? to.waterLevel : to.rimLevel - 0.2;
    const bore = random.pick(bores.slice(6));
    const end: PipeEnd = {
      part: to.id,
      x: round(tx),
      z: round(surface + (random.chance(0.7) ? 0.04 : -0.15)),
      mouth: "down",
    };
    const style = random.pick(["side", "side", "side", "standpipe", "bottomDraw"] as const);
    const beside = from.x + (tx < from.x ? -0.15 : widthOf(from) + 0.15);
    const made = drawPipe(sketch, "return", {
      from:
        style === "standpipe"
          ? { part: from.id, x: round(middleOf(from)), z: level, mouth: "up" }
          : { part: from.id, z: style === "side" ? level : round(from.baseLevel + 0.1), mouth: "side" },
      to: end,
      route:
        style === "side"
          ? [[tx, level - 0.02]]
          : style === "standpipe"
            ? [
                [middleOf(from), from.baseLevel - 0.05],
                [tx, from.baseLevel - 0.07],
              ]
            : [
                [beside, from.baseLevel + 0.1],
                [beside, level],
                [tx, level - 0.02],
              ],
      bore,
    });
    if (random.chance(0.12)) sketch.vent(sketch.along(made, random.between(0.1, 0.9)), random.between(0, 0.4));
  }
}

function drawFlush(sketch: Sketch, from: Vessel): void {
  const { random } = sketch;
  const z = round(from.baseLevel + 0.05);
  const out = round(from.x + widthOf(from) + random.between(0.2, 0.4));
  const flush = drawPipe(sketch, "flush", {
    from: { part: from.id, z, mouth: "side" },
    to: openEnd(out, round(from.baseLevel - 0.05)),
    route: [[out, z]],
    bore: random.pick(bores.slice(5, 10)),
  });
  const open = random.chance(0.9) ? 0 : 1;
  sketch.add(
    valve({
      id: sketch.name("flush-valve"),
      on: sketch.along(flush, 0.3),
      type: random.pick(["ball", "gate"] as const),
      open,
      role: "flush",
    }),
  );
}

function drawLooseThings(sketch: Sketch, near: Pond): void {
  const { random } = sketch;
  drawPump(sketch, { x: near.x - 0.5, z: 0.1 });
  drawPipe(sketch, "offcut", { from: openEnd(-1, 0.3), to: openEnd(-2, 0.2), bore: 0.02 });
  const pipes = sketch.parts.filter((part) => part.kind === "pipe");
  const bearer = random.pick(pipes);
  drawPipe(sketch, "dead-end", { from: sketch.along(bearer, random.between(0, 1)), to: openEnd(-1, 2.4), bore: 0.02 });
  sketch.add(note({ id: sketch.name("note"), text: 'Left from last year <& "quoted">' }));
}

// --- anything to anything -----------------------------------------------------------------------------

function drawWild(sketch: Sketch, size: number): void {
  const { random } = sketch;
  const level = () => sketch.level(-3, 3);
  const bodies: Body[] = [];
  const pumps: Pump[] = [];
  for (let i = random.whole(0, 3); i > 0; i--)
    bodies.push(drawPond(sketch, random.between(-8, 8), random.between(-1.5, 3)));
  for (let i = random.whole(0, 1 + size / 2); i > 0; i--)
    bodies.push(drawVessel(sketch, random.between(-8, 8), random.between(-3, 2)));
  for (let i = random.whole(0, 1 + size / 2); i > 0; i--) {
    const body = bodies.length > 0 && random.chance(0.7) ? random.pick(bodies) : null;
    pumps.push(
      drawPump(
        sketch,
        body
          ? { x: middleOf(body), z: random.between(bottomOf(body), body.rimLevel), in: body.id }
          : { x: random.between(-8, 8), z: level() },
      ),
    );
  }
  const pipes: Pipe[] = [];
  for (let i = 0; i < size; i++) {
    const end = (side: "from" | "to"): PipeEnd => {
      const draw = random.next();
      const takers = side === "from" ? pumps : pumps.filter((each) => each.in === undefined);
      if (draw < 0.25 && takers.length > 0) return { part: random.pick(takers).id };
      if (draw < 0.65 && bodies.length > 0) {
        const body = random.pick(bodies);
        const z = round(random.between(bottomOf(body), body.rimLevel + (random.chance(0.2) ? 0.3 : 0)));
        const mouth = random.pick(["side", "down", "up"] as const);
        return {
          part: body.id,
          z,
          mouth,
          ...(mouth !== "side" && random.chance(0.5) ? { x: sketch.level(body.x, body.x + widthOf(body)) } : {}),
        };
      }
      // Into an older pipe only, so that no circle of tees forms; now and then at its very end.
      if (draw < 0.85 && pipes.length > 0)
        return sketch.along(random.pick(pipes), random.pick([0, 1, random.next(), random.next()]));
      return openEnd(sketch.level(-8, 8), level());
    };
    const route = Array.from(
      { length: random.whole(0, 4) },
      (): Point => [random.between(-8, 8), random.between(-3, 3)],
    );
    const made = drawPipe(sketch, "pipe", {
      from: end("from"),
      to: end("to"),
      route,
      bore: round(random.between(0.01, 0.11)),
    });
    // Both ends at one place: such a pipe is no drawing.
    if (sketch.length(made) < 0.01) sketch.parts.pop();
    else pipes.push(made);
  }
  for (const each of pipes) {
    if (random.chance(0.3)) sketch.vent(sketch.along(each, random.next()), random.between(0, 1));
    if (random.chance(0.2))
      sketch.add(
        checkValve({
          id: sketch.name("flap"),
          on: sketch.along(each, random.next()),
          ...(random.chance(0.3) ? { stuckOpen: true } : {}),
        }),
      );
    if (random.chance(0.3))
      sketch.add(
        valve({
          id: sketch.name("valve"),
          on: sketch.along(each, random.next()),
          type: random.pick(["ball", "gate"] as const),
          open: random.pick([0, 1, round(random.next())]),
          ...(random.chance(0.2) ? { role: "flush" as const } : {}),
        }),
      );
  }
  for (let i = random.whole(0, 2); i > 0 && bodies.length > 1; i--) {
    const [from, to] = shuffled(bodies, random) as [Body, Body];
    sketch.add(
      spillway({
        id: sketch.name("sill"),
        from: from.id,
        to: random.chance(0.2) ? "ground" : to.id,
        crestZ: round(random.between(bottomOf(from), from.rimLevel)),
        width: sketch.level(0.05, 1),
        crest: random.pick(["sharp", "broad"] as const),
      }),
    );
  }
}
