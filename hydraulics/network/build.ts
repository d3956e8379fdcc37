/** Section → Network: bodies, pipes, pumps, vents and sills as nodes and links.
 *
 *   body surface ── bed ── opening in the media ── mouth ── pipe end ── stretch ── tee ── stretch ── …
 *
 * Full lines have a node at each end, tee and vent. A gravity pipe is one link from body to body, cut at tees
 * only. Every body is a node, whether its level is given (a pond while the pumps run) or found. */
import {
  cloggingOf,
  crestKind,
  mediaOf,
  openingHeadOf,
  outletBoreOf,
  overflowOf,
  pipeC,
  pipeRoughness,
  pumpSpeed,
  pumpStoppedK,
  siteOf,
  ventEnd,
  ventOpen,
} from "../document/defaults.ts";
import { bottomOf, drawnWidth, placeAt } from "../document/geometry.ts";
import type { Body, PartId, Pump, Section, Vent } from "../document/section.ts";
import { bedSlices, bedTop, planArea, waterArea, waterVolume } from "../document/volumes.ts";
import { darcyWeisbach } from "../elements/darcyWeisbach.ts";
import type { Loss } from "../elements/element.ts";
import { hazenWilliams } from "../elements/hazenWilliams.ts";
import { minorLoss } from "../elements/minorLoss.ts";
import { pump as pumpElement } from "../elements/pump.ts";
import { squareLaw } from "../elements/squareLaw.ts";
import { ergun } from "../formulas/ergun.ts";
import { entranceFlushK, entranceProjectingK, exitK } from "../formulas/fittingK.ts";
import { g } from "../formulas/gravity.ts";
import { ventArea } from "../formulas/ventPassage.ts";
import { kinematicViscosity, waterDensity, waterViscosity } from "../formulas/water.ts";
import { must } from "../must.ts";
import { AirPointLink } from "../solver/links/airPointLink.ts";
import { type BedLayerLaw, BedLink } from "../solver/links/bedLink.ts";
import { FullLink } from "../solver/links/fullLink.ts";
import { GravityLink } from "../solver/links/gravityLink.ts";
import { type Link, mostThrough, outside } from "../solver/links/link.ts";
import { MouthLink } from "../solver/links/mouthLink.ts";
import { PumpLink } from "../solver/links/pumpLink.ts";
import { RimLink } from "../solver/links/rimLink.ts";
import { SpillLink } from "../solver/links/spillLink.ts";
import { SpillwayLink } from "../solver/links/spillwayLink.ts";
import type { Store, SystemNode } from "../solver/system.ts";
import { gravityLaw } from "./gravityPath.ts";
import type { BodyModel, Network, PipeEndModel, PipeModel, PumpModel, StretchModel, VentModel } from "./network.ts";
import { type LaidPipe, layOut, samePlace } from "./pipeModel.ts";

export interface BuildOptions {
  readonly pumps: "running" | "stopped";
  /** `open`: every check valve taken for stuck open */
  readonly checkValves: "sound" | "open";
  /** gravity pipes followed as full lines */
  readonly asFull?: ReadonlySet<PartId>;
  /** vents that are credited: their tees are air points */
  readonly airPoints?: ReadonlySet<PartId>;
  /** vents that spill where water stands over their end; absent: all */
  readonly ventsShut?: boolean;
  /** places `pipe@at` where a branch that ends in air admits it */
  readonly branchAir?: ReadonlySet<string>;
  /** friction and K and pump head times these: the uncertain inputs */
  readonly scatter?: { readonly c: number; readonly k: number; readonly head: number };
  /** media without loss */
  readonly clearMedia?: boolean;
  /** pipes left out */
  readonly without?: ReadonlySet<PartId>;
  /** the stand-in curve as a straight line */
  readonly straightCurves?: boolean;
}

/** m/s through a bed, far over anything real: it only bounds a step. */
const fastestUpflow = 0.5;

export const teeKey = (pipe: PartId, at: number): string => `${pipe}@${at.toFixed(6)}`;

/** A loss so small that it only gives Newton's method a slope. */
const seamless: Loss = { loss: (Q) => 1e-6 * Q, slope: () => 1e-6, content: (Q) => 0.5e-6 * Q * Q };

export function buildNetwork(section: Section, options: BuildOptions): Network {
  const site = siteOf(section);
  const scatter = options.scatter ?? { c: 1, k: 1, head: 1 };
  const viscosity = kinematicViscosity(site.waterTemperature);
  const nodes: SystemNode[] = [];
  const links: Link[] = [];
  const addNode = (node: SystemNode): number => nodes.push(node) - 1;
  const add = <L extends Link>(link: L): L => {
    links.push(link);
    return link;
  };
  const layout = layOut(section, options.asFull ?? new Set());
  for (const id of options.without ?? []) (layout.pipes as Map<PartId, LaidPipe>).delete(id);

  // Bodies, each a surface and the openings in its media.
  const openings = new Map<PartId, number[]>();
  const open = (body: PartId, level: number) => openings.set(body, [...(openings.get(body) ?? []), level]);
  for (const pipe of layout.pipes.values()) {
    for (const end of [pipe.from, pipe.to]) if (end.kind === "body") open(end.opening.body, end.opening.level);
  }
  for (const part of section.parts.values()) if (part.kind === "pump" && part.in !== undefined) open(part.in, part.z);
  const bodies = new Map<PartId, BodyModel>();
  const surfaceOf = (id: PartId): number => {
    const model = bodies.get(id);
    must(model, `${id} is no body`);
    return model.surface;
  };
  for (const part of section.parts.values()) {
    if (part.kind !== "pond" && part.kind !== "vessel") continue;
    const head = part.kind === "pond" ? part.waterLevel : part.rimLevel;
    const surface = addNode({
      part: part.id,
      head,
      store: storeOf(part),
      least: bottomOf(part) - 1,
      most: part.rimLevel + 0.001,
    });
    bodies.set(part.id, { body: part, surface, rim: null as never, column: [], beds: [] });
  }
  for (const model of [...bodies.values()]) {
    const { body, surface } = model;
    const to = body.kind === "vessel" ? overflowOf(body) : "ground";
    const rim = add(new RimLink(body.id, surface, to === "ground" ? outside : surfaceOf(to), body.rimLevel));
    bodies.set(body.id, { ...model, rim, ...column(body, surface, openings.get(body.id) ?? []) });
  }

  function column(body: Body, surface: number, levels: readonly number[]): Pick<BodyModel, "column" | "beds"> {
    if (body.kind === "pond" || mediaOf(body).length === 0 || options.clearMedia) return { column: [], beds: [] };
    const top = bedTop(body);
    const distinct = [...new Set(levels.filter((level) => level < top - 1e-9))].sort((a, b) => a - b);
    const area = planArea(body);
    const density = waterDensity(site.waterTemperature);
    const layersBetween = (low: number, high: number): BedLayerLaw[] =>
      bedSlices(body)
        .filter((slice) => slice.to > low && slice.from < high)
        .map((slice) => {
          const { perU, perU2 } = ergun({
            grain: slice.grain,
            porosity: slice.porosity,
            viscosity: waterViscosity(site.waterTemperature),
            density,
          });
          return {
            from: Math.max(slice.from, low),
            to: Math.min(slice.to, high),
            linear: (cloggingOf(body) * perU) / area,
            square: (cloggingOf(body) * perU2) / area ** 2,
          };
        });
    const column = distinct.map((level) => ({
      level,
      node: addNode({
        part: body.id,
        head: body.rimLevel,
        store: null,
        least: body.baseLevel - 1,
        most: body.rimLevel + 20,
      }),
    }));
    const beds = column.map(({ level, node }, k) => {
      const above = column[k + 1];
      const bed = add(
        new BedLink(body.id, node, above?.node ?? surface, surface, layersBetween(level, above?.level ?? top)),
      );
      bed.most = Math.max(0.2, area * fastestUpflow);
      return bed;
    });
    return { column, beds };
  }

  /** The node that an opening at a level of a body sees. */
  const nodeAt = (id: PartId, level: number): number => {
    const model = bodies.get(id);
    must(model, `${id} is no body`);
    return model.column.find((opening) => Math.abs(opening.level - level) < 1e-9)?.node ?? model.surface;
  };

  // Pumps.
  const pumps = new Map<PartId, PumpModel>();
  for (const part of section.parts.values()) if (part.kind === "pump") pumps.set(part.id, pumpModel(part));

  function pumpModel(pump: Pump): PumpModel {
    const head = pump.in === undefined ? pump.z : (nodes[surfaceOf(pump.in)] as SystemNode).head;
    const inlet = addNode({ part: pump.id, head, store: null });
    const outlet = addNode({ part: pump.id, head: head + 0.5, store: null });
    const fed = [...layout.pipes.values()].some((pipe) => pipe.to.kind === "pump" && pipe.to.pump === pump.id);
    const loose = pump.in === undefined && !fed;
    const bore = outletBoreOf(section, pump) ?? 0.025;
    const speed = pumpSpeed(pump);
    const running = options.pumps === "running" && speed > 0 && !loose;
    const intake =
      pump.in === undefined
        ? null
        : add(
            new MouthLink(pump.id, nodeAt(pump.in, pump.z), inlet, {
              axis: pump.z,
              edge: Math.max(pump.z, bottomOf(bodies.get(pump.in)?.body as Body)),
              taking: seamless,
              giving: seamless,
            }),
          );
    const link = loose
      ? null
      : add(new PumpLink(pump.id, inlet, outlet, pumpLaw(pump, bore, running), running, greatestFlow(pump) / 2));
    return { pump, inlet, outlet, link, intake, loose, outletBore: bore };
  }

  function pumpLaw(pump: Pump, bore: number, running: boolean): Loss {
    if (!running) return minorLoss.build({ K: Math.max(pumpStoppedK(pump), 1e-6), D: bore });
    const speed = pumpSpeed(pump);
    const law = pumpElement.build(
      pump.curve
        ? { curve: pump.curve, speed }
        : {
            maxFlow: pump.maxFlow as number,
            maxHead: pump.maxHead as number,
            speed,
            straight: options.straightCurves ?? false,
          },
    );
    const times = scatter.head;
    if (times === 1) return law;
    return {
      loss: (Q) => times * law.loss(Q),
      slope: (Q) => times * law.slope(Q),
      content: (Q) => times * law.content(Q),
    };
  }

  const frictionOf = (pipe: LaidPipe, L: number): Loss => {
    const { bore } = pipe.pipe;
    return site.friction === "hazen-williams"
      ? hazenWilliams.build({ L, D: bore, C: pipeC(pipe.pipe) * scatter.c })
      : scaled(
          darcyWeisbach.build({ L, D: bore, roughness: pipeRoughness(pipe.pipe), viscosity }),
          scatter.c ** -1.852,
        );
  };
  const squareOf = (K: number, bore: number): number => K / (2 * g * ((Math.PI * bore ** 2) / 4) ** 2);

  // Full lines: a node at each place where something joins.
  const nodesOn = new Map<PartId, { at: number; node: number; beyond: number }[]>();
  const branchAirLinks: { link: AirPointLink; pipe: PartId }[] = [];
  const vents = new Map<PartId, VentModel>();
  const airPointAt = new Map<string, AirPointLink>();
  const ventParts = [...section.parts.values()].filter(
    (part): part is Vent => part.kind === "vent" && layout.pipes.has(part.on.pipe),
  );
  const ventsOn = new Map<PartId, Vent[]>();
  for (const vent of ventParts) ventsOn.set(vent.on.pipe, [...(ventsOn.get(vent.on.pipe) ?? []), vent]);

  for (const pipe of layout.pipes.values()) {
    const places = (layout.tees.get(pipe.pipe.id) ?? []).slice();
    // On a gravity pipe too: a vent whose open end lies under the water lets it run out. The cut changes nothing
    // else, since the floors of a straight run are highest at its ends.
    for (const vent of ventsOn.get(pipe.pipe.id) ?? []) places.push(Math.min(vent.on.at, pipe.drawn));
    const inner = distinctPlaces(places, pipe.drawn);
    const list: { at: number; node: number; beyond: number }[] = [];
    if (pipe.runs === "full") {
      list.push({ at: 0, node: -2, beyond: -2 });
      for (const at of inner)
        if (at > samePlace && at < pipe.drawn - samePlace) list.push({ at, node: -2, beyond: -2 });
      list.push({ at: pipe.drawn, node: -2, beyond: -2 });
    } else {
      for (const at of inner) list.push({ at, node: -2, beyond: -2 });
    }
    for (const entry of list) {
      const level = placeAt(pipe.line, entry.at)[1];
      const atPumpFrom = entry.at === 0 && pipe.from.kind === "pump" ? pipe.from.pump : null;
      const atPumpTo = entry.at === pipe.drawn && pipe.to.kind === "pump" ? pipe.to.pump : null;
      if (pipe.runs === "full" && atPumpFrom !== null) entry.node = (pumps.get(atPumpFrom) as PumpModel).outlet;
      else if (pipe.runs === "full" && atPumpTo !== null) entry.node = (pumps.get(atPumpTo) as PumpModel).inlet;
      else if (pipe.runs === "full" && entry.at === 0 && pipe.from.kind === "tee") entry.node = -3;
      else if (pipe.runs === "full" && entry.at === pipe.drawn && pipe.to.kind === "tee") entry.node = -3;
      else entry.node = addNode({ part: pipe.pipe.id, head: level, store: null });
      entry.beyond = entry.node;
      const cut = cutAt(pipe, entry.at);
      if (cut && pipe.runs === "full" && entry.node >= 0 && entry.at > samePlace && entry.at < pipe.drawn - samePlace) {
        entry.beyond = addNode({ part: pipe.pipe.id, head: level, store: null });
        const link = add(
          new AirPointLink(cut, entry.node, entry.beyond, level, squareLaw(squareOf(1, pipe.pipe.bore))),
        );
        airPointAt.set(teeKey(pipe.pipe.id, entry.at), link);
        if (cut === pipe.pipe.id) branchAirLinks.push({ link, pipe: pipe.pipe.id });
      }
    }
    nodesOn.set(pipe.pipe.id, list);
  }

  /** The vent or branch that admits air at a place; null where none is credited. */
  function cutAt(pipe: LaidPipe, at: number): PartId | null {
    const vent = (ventsOn.get(pipe.pipe.id) ?? []).find(
      (candidate) =>
        options.airPoints?.has(candidate.id) && Math.abs(Math.min(candidate.on.at, pipe.drawn) - at) < samePlace,
    );
    if (vent) return vent.id;
    return options.branchAir?.has(teeKey(pipe.pipe.id, at)) ? pipe.pipe.id : null;
  }

  /** The node at a place of a pipe that has one there. Tees of tees are followed to the pipe that owns the node. */
  function nodeOn(id: PartId, at: number, depth = 0): number {
    must(depth < 1000, "tees lead back to their own pipe");
    const list = nodesOn.get(id) ?? [];
    const entry =
      list.find((candidate) => Math.abs(candidate.at - at) < 2 * samePlace) ??
      list.reduce((a, b) => (Math.abs(a.at - at) < Math.abs(b.at - at) ? a : b));
    if (entry.node !== -3) return entry.node;
    const pipe = layout.pipes.get(id) as LaidPipe;
    const end = entry.at === 0 ? pipe.from : pipe.to;
    must(end.kind === "tee", "only a tee borrows its node");
    return layout.pipes.has(end.pipe)
      ? nodeOn(end.pipe, end.at, depth + 1)
      : addNode({ part: id, head: end.place[1], store: null });
  }

  const pipes = new Map<PartId, PipeModel>();
  for (const pipe of layout.pipes.values())
    pipes.set(pipe.pipe.id, pipe.runs === "full" ? fullPipe(pipe) : gravityPipe(pipe));

  function fullPipe(pipe: LaidPipe): PipeModel {
    const list = nodesOn.get(pipe.pipe.id) as { at: number; node: number; beyond: number }[];
    const { bore, id } = pipe.pipe;
    const stretches: StretchModel[] = [];
    for (let k = 1; k < list.length; k++) {
      const a = list[k - 1] as { at: number; node: number; beyond: number };
      const b = list[k] as { at: number; node: number; beyond: number };
      const first = k === 1;
      const inside = (at: number) => (at > a.at + samePlace || (first && at >= a.at)) && at <= b.at + samePlace;
      // A tee's run loss lies just past it, a bend at a node just before it.
      const mine = pipe.bears.filter((item) =>
        item.what === "tee" && item.at > samePlace && item.at < pipe.drawn - samePlace
          ? Math.abs(item.at - a.at) < samePlace
          : inside(item.at),
      );
      let kForward = 0;
      let kBackward = 0;
      for (const item of mine) {
        kForward += item.kForward * scatter.k;
        kBackward += item.kBackward * scatter.k;
      }
      const checks = options.checkValves === "open" ? [] : pipe.checks.filter(({ at }) => inside(at));
      const length = b.at - a.at + (first ? pipe.extra : 0);
      const link = add(
        new FullLink(id, a.beyond === -3 ? nodeOn(id, a.at) : a.beyond, b.node === -3 ? nodeOn(id, b.at) : b.node, {
          friction: length > 0 ? frictionOf(pipe, length) : seamless,
          forward: squareLaw(Math.max(squareOf(kForward, bore), 1e-3)),
          backward: squareLaw(Math.max(squareOf(kBackward, bore), 1e-3)),
          shut: pipe.shutAt.some(inside),
          oneWay: checks.length > 0 ? 1 : 0,
          openingHead: checks.reduce((sum, { valve }) => sum + openingHeadOf(valve), 0),
          area: (Math.PI * bore ** 2) / 4,
        }),
      );
      stretches.push({ start: a.at, end: b.at, i: link.i, j: link.j, link });
    }
    return {
      ...pipe,
      stretches,
      mouthFrom: mouthLink(pipe, pipe.from, (stretches[0] as StretchModel).i),
      mouthTo: mouthLink(pipe, pipe.to, (stretches.at(-1) as StretchModel).j),
    };
  }

  function mouthLink(pipe: LaidPipe, end: PipeEndModel, node: number): MouthLink | null {
    const { bore, id } = pipe.pipe;
    const giving = squareLaw(squareOf(exitK, bore));
    if (end.kind === "air") {
      const level = end.place[1];
      const link = add(
        new MouthLink(id, outside, node, { axis: level, edge: Number.POSITIVE_INFINITY, taking: giving, giving }),
      );
      link.broken = true;
      link.most = mostThrough((Math.PI * bore ** 2) / 4);
      return link;
    }
    if (end.kind !== "body") return null;
    const { body, level, mouth } = end.opening;
    // A mouth drawn under the bed takes nothing that is not there.
    const edge = Math.max(end.opening.edge, bottomOf(bodies.get(body)?.body as Body));
    const taking = squareLaw(squareOf((mouth === "side" ? entranceFlushK : entranceProjectingK) * scatter.k, bore));
    const link = add(new MouthLink(id, nodeAt(body, level), node, { axis: level, edge, taking, giving }));
    link.most = mostThrough((Math.PI * bore ** 2) / 4);
    return link;
  }

  function gravityPipe(pipe: LaidPipe): PipeModel {
    const list = nodesOn.get(pipe.pipe.id) as { at: number; node: number }[];
    const perMetre = frictionOf(pipe, 1);
    const endNode = (end: PipeEndModel): number => {
      if (end.kind === "body") return nodeAt(end.opening.body, end.opening.level);
      return end.kind === "tee" && layout.pipes.has(end.pipe) ? nodeOn(end.pipe, end.at) : outside;
    };
    const stops = [
      { at: 0, node: endNode(pipe.from), own: true },
      ...list.map((entry) => ({ ...entry, own: false })),
      { at: pipe.drawn, node: endNode(pipe.to), own: true },
    ];
    const stretches: StretchModel[] = [];
    for (let k = 1; k < stops.length; k++) {
      const a = stops[k - 1] as { at: number; node: number; own: boolean };
      const b = stops[k] as { at: number; node: number; own: boolean };
      const law = (way: 1 | -1) =>
        gravityLaw(pipe, { start: a.at, end: b.at, startIsEnd: a.own, endIsEnd: b.own }, way, perMetre, {
          checksOpen: options.checkValves === "open",
          kTimes: scatter.k,
          bottomOf: (id) => bottomOf(bodies.get(id)?.body as Body),
        });
      const link = add(
        new GravityLink(
          pipe.pipe.id,
          a.node,
          b.node,
          a.node === outside ? null : law(1),
          b.node === outside ? null : law(-1),
        ),
      );
      stretches.push({ start: a.at, end: b.at, i: a.node, j: b.node, link });
    }
    return { ...pipe, stretches, mouthFrom: null, mouthTo: null };
  }

  // Vents.
  for (const vent of ventParts) {
    const pipe = layout.pipes.get(vent.on.pipe) as LaidPipe;
    const at = Math.min(vent.on.at, pipe.drawn);
    const place = placeAt(pipe.line, at);
    const endLevel = Math.max(place[1], ventEnd(vent, place[1]));
    const spillsTo = bodyUnder(section, place[0], endLevel);
    const node = pipe.runs === "full" ? nodeOn(pipe.pipe.id, at) : -1;
    let spill: SpillLink | null = null;
    const area = ventArea(vent.bore, ventOpen(vent), endLevel - place[1]);
    const spillNode = nodeOn(pipe.pipe.id, at);
    if (spillNode >= 0 && area > 0 && !options.ventsShut) {
      spill = add(
        new SpillLink(
          vent.id,
          spillNode,
          spillsTo === "ground" ? outside : surfaceOf(spillsTo),
          endLevel,
          squareLaw(1 / (2 * g * area ** 2)),
        ),
      );
    }
    const airPoint = options.airPoints?.has(vent.id) ? (airPointAt.get(teeKey(pipe.pipe.id, at)) ?? null) : null;
    vents.set(vent.id, {
      vent,
      pipe: pipe.pipe.id,
      at,
      place,
      teeLevel: place[1],
      endLevel,
      node,
      spill,
      airPoint,
      spillsTo,
    });
  }

  // Sills.
  const spillways = new Map<
    PartId,
    { spillway: Extract<ReturnType<Section["parts"]["get"]>, { kind: "spillway" }>; link: SpillwayLink }
  >();
  for (const part of section.parts.values()) {
    if (part.kind !== "spillway") continue;
    const link = add(
      new SpillwayLink(part.id, surfaceOf(part.from), part.to === "ground" ? outside : surfaceOf(part.to), {
        crestLevel: Math.max(part.crestZ, bottomOf(bodies.get(part.from)?.body as Body)),
        width: part.width,
        crest: crestKind(part),
      }),
    );
    spillways.set(part.id, { spillway: part, link });
  }

  return { section, nodes, links, bodies, pipes, pumps, vents, spillways, branchAir: branchAirLinks };
}

/** Below the bed the volume goes on downwards, so that a step that overshoots finds its way back. */
function storeOf(body: Body): Store {
  const bottom = bottomOf(body);
  const least = waterArea(body, bottom);
  return {
    volume: (level) => (level < bottom ? (level - bottom) * least : waterVolume(body, level)),
    area: (level) => waterArea(body, level),
  };
}

const scaled = (law: Loss, times: number): Loss =>
  times === 1
    ? law
    : { loss: (Q) => times * law.loss(Q), slope: (Q) => times * law.slope(Q), content: (Q) => times * law.content(Q) };

function distinctPlaces(places: readonly number[], drawn: number): number[] {
  const sorted = places.map((at) => Math.min(Math.max(0, at), drawn)).sort((a, b) => a - b);
  return sorted.filter((at, k) => k === 0 || at - (sorted[k - 1] as number) > samePlace);
}

export const greatestFlow = (pump: Pump): number =>
  (pump.curve ? (pump.curve.at(-1)?.[0] ?? 0) : (pump.maxFlow ?? 0)) * pumpSpeed(pump);

/** The pond or vessel over whose plan a place stands, its rim at or below a level: the highest such rim. */
export function bodyUnder(section: Section, x: number, level: number): PartId | "ground" {
  let found: Body | null = null;
  for (const part of section.parts.values()) {
    if (part.kind !== "pond" && part.kind !== "vessel") continue;
    if (x < part.x || x > part.x + drawnWidth(part) || part.rimLevel > level) continue;
    if (!found || part.rimLevel > found.rimLevel) found = part;
  }
  return found?.id ?? "ground";
}
