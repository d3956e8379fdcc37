/** Ponds and vessels: a surface, a rim, and in a vessel's media a column of openings with the bed between them. */
import { cloggingOf, crestKind, mediaOf, overflowOf } from "../document/defaults.ts";
import { bottomOf } from "../document/geometry.ts";
import { oneLevel } from "../document/limits.ts";
import type { Body, PartId } from "../document/section.ts";
import { bedSlices, bedTop, planArea, waterArea, waterVolume } from "../document/volumes.ts";
import { boreArea } from "../formulas/circle.ts";
import { ergun } from "../formulas/ergun.ts";
import { waterDensity, waterViscosity } from "../formulas/water.ts";
import { weirFlow } from "../formulas/weir.ts";
import { must } from "../must.ts";
import { type BedLayerLaw, BedLink } from "../solver/links/bedLink.ts";
import { mostThrough, outside, steep } from "../solver/links/link.ts";
import { RimLink } from "../solver/links/rimLink.ts";
import type { Store } from "../solver/system.ts";
import { bodyIn, type Draft } from "./draft.ts";
import type { BodyModel } from "./network.ts";

/** m/s through a bed, far over anything real: it only bounds a step. */
const fastestUpflow = 0.5;
/** m over a rim that no step goes beyond, besides what it takes to carry over all that the pipes can bring */
const overRim = 0.001;

export function addBodies(draft: Draft): void {
  const surfaces: { body: Body; surface: number }[] = [];
  const most = overRim + greatestInflow(draft) / steep;
  for (const part of draft.section.parts.values()) {
    if (part.kind !== "pond" && part.kind !== "vessel") continue;
    const surface = draft.addNode({
      part: part.id,
      head: part.kind === "pond" ? part.waterLevel : part.rimLevel,
      store: storeOf(part),
      least: bottomOf(part) - 1,
      most: part.rimLevel + most,
    });
    surfaces.push({ body: part, surface });
  }
  const surfaceOf = new Map(surfaces.map(({ body, surface }) => [body.id, surface]));
  const openings = openingsIn(draft);
  for (const { body, surface } of surfaces) {
    const to = body.kind === "vessel" ? overflowOf(body) : "ground";
    const onto = to === "ground" ? outside : surfaceOf.get(to);
    must(onto !== undefined, `${to} is no body`);
    const rim = draft.add(new RimLink(body.id, surface, onto, body.rimLevel));
    draft.bodies.set(body.id, { body, surface, rim, ...column(draft, body, surface, openings.get(body.id) ?? []) });
  }
}

/** m³/s that no body ever gets: what all pipes and all sills, from bodies full to their rims, bring together. */
function greatestInflow({ layout, section }: Draft): number {
  let flow = 0;
  for (const { pipe } of layout.pipes.values()) flow += mostThrough(boreArea(pipe.bore));
  for (const part of section.parts.values()) {
    if (part.kind !== "spillway") continue;
    const { rimLevel } = section.parts.get(part.from) as Body;
    flow += weirFlow(rimLevel - part.crestZ, part.width, crestKind(part));
  }
  return flow;
}

/** Levels at which pipes and pumps open into each body. */
function openingsIn({ layout, section }: Draft): ReadonlyMap<PartId, number[]> {
  const levels = new Map<PartId, number[]>();
  const open = (body: PartId, level: number) => {
    const known = levels.get(body);
    if (known) known.push(level);
    else levels.set(body, [level]);
  };
  for (const pipe of layout.pipes.values()) {
    for (const end of [pipe.from, pipe.to]) if (end.kind === "body") open(end.opening.body, end.opening.level);
  }
  for (const part of section.parts.values()) if (part.kind === "pump" && part.in !== undefined) open(part.in, part.z);
  return levels;
}

function column(
  draft: Draft,
  body: Body,
  surface: number,
  levels: readonly number[],
): Pick<BodyModel, "column" | "beds"> {
  if (body.kind === "pond" || mediaOf(body).length === 0 || draft.options.clearMedia) return { column: [], beds: [] };
  const top = bedTop(body);
  const inBed = [...new Set(levels.filter((level) => level < top - oneLevel))].sort((a, b) => a - b);
  const openings = inBed.map((level) => ({
    level,
    node: draft.addNode({
      part: body.id,
      head: body.rimLevel,
      store: null,
      least: body.baseLevel - 1,
      most: body.rimLevel + 20,
    }),
  }));
  const temperature = draft.site.waterTemperature;
  const beds = openings.map(({ level, node }, k) => {
    const above = openings[k + 1];
    const layers = layersBetween(body, temperature, level, above?.level ?? top);
    const bed = draft.add(new BedLink(body.id, node, above?.node ?? surface, surface, layers));
    bed.most = Math.max(0.2, planArea(body) * fastestUpflow);
    return bed;
  });
  return { column: openings, beds };
}

function layersBetween(
  vessel: Extract<Body, { kind: "vessel" }>,
  temperature: number,
  low: number,
  high: number,
): BedLayerLaw[] {
  const area = planArea(vessel);
  const clogging = cloggingOf(vessel);
  const viscosity = waterViscosity(temperature);
  const density = waterDensity(temperature);
  return bedSlices(vessel)
    .filter((slice) => slice.to > low && slice.from < high)
    .map((slice) => {
      const { perU, perU2 } = ergun({ grain: slice.grain, porosity: slice.porosity, viscosity, density });
      return {
        from: Math.max(slice.from, low),
        to: Math.min(slice.to, high),
        linear: (clogging * perU) / area,
        square: (clogging * perU2) / area ** 2,
      };
    });
}

export const bottomIn =
  (draft: Draft) =>
  (id: PartId): number =>
    bottomOf(bodyIn(draft, id).body);

/** Below the bed the volume goes on downwards, so that a step that overshoots finds its way back. */
function storeOf(body: Body): Store {
  const bottom = bottomOf(body);
  const least = waterArea(body, bottom);
  return {
    volume: (level) => (level < bottom ? (level - bottom) * least : waterVolume(body, level)),
    area: (level) => waterArea(body, level),
  };
}
