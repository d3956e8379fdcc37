/** Vents: where each stands, what it spills and where to, and the air point it makes where it is credited. */
import { ventEnd, ventOpen } from "../document/defaults.ts";
import { drawnWidth, placeAt } from "../document/geometry.ts";
import type { Body, PartId, Section, Vent } from "../document/section.ts";
import { squareLaw } from "../elements/squareLaw.ts";
import { g } from "../formulas/gravity.ts";
import { ventArea } from "../formulas/ventPassage.ts";
import { outside } from "../solver/links/link.ts";
import { SpillLink } from "../solver/links/spillLink.ts";
import { bodyIn, type Draft, teeKey } from "./draft.ts";
import type { VentModel } from "./network.ts";
import { nodeOn } from "./nodePlaces.ts";
import type { LaidPipe } from "./pipeModel.ts";

export function addVents(draft: Draft): Map<PartId, VentModel> {
  const vents = new Map<PartId, VentModel>();
  for (const part of draft.section.parts.values()) {
    const pipe = part.kind === "vent" ? draft.layout.pipes.get(part.on.pipe) : undefined;
    if (part.kind === "vent" && pipe) vents.set(part.id, ventModel(draft, part, pipe));
  }
  return vents;
}

function ventModel(draft: Draft, vent: Vent, pipe: LaidPipe): VentModel {
  const at = Math.min(vent.on.at, pipe.drawn);
  const place = placeAt(pipe.line, at);
  const teeLevel = place[1];
  const endLevel = Math.max(teeLevel, ventEnd(vent, teeLevel));
  const spillsTo = bodyUnder(draft.section, place[0], endLevel);
  const credited = draft.options.airPoints?.has(vent.id) ?? false;
  const airPoint = credited ? (draft.airPoints.get(teeKey(pipe.pipe.id, at)) ?? null) : null;
  const node = airPoint?.i ?? nodeOn(draft, pipe.pipe.id, at);
  const area = ventArea(vent.bore, ventOpen(vent), endLevel - teeLevel);
  const onto = spillsTo === "ground" ? outside : bodyIn(draft, spillsTo).surface;
  const spill =
    area > 0 && !draft.options.ventsShut
      ? draft.add(new SpillLink(vent.id, node, onto, endLevel, squareLaw(1 / (2 * g * area ** 2)), airPoint))
      : null;
  return {
    vent,
    pipe: pipe.pipe.id,
    at,
    place,
    teeLevel,
    endLevel,
    node: pipe.runs === "full" ? node : -1,
    spill,
    airPoint,
    spillsTo,
  };
}

/** The pond or vessel over whose plan a place stands, its rim at or below a level: the highest such rim. */
function bodyUnder(section: Section, x: number, level: number): PartId | "ground" {
  let found: Body | null = null;
  for (const part of section.parts.values()) {
    if (part.kind !== "pond" && part.kind !== "vessel") continue;
    if (x < part.x || x > part.x + drawnWidth(part) || part.rimLevel > level) continue;
    if (!found || part.rimLevel > found.rimLevel) found = part;
  }
  return found?.id ?? "ground";
}
