/** Every number of a drawing that may be swept, with its place in the file, its name and what it is measured in.
 * A number that the file leaves out is offered too where it has a meaning of its own (`defaults.ts`). */
import {
  cloggingOf,
  extraLengthOf,
  mediaOf,
  openingHeadOf,
  pipeC,
  pipeRoughness,
  pumpSpeed,
  pumpStoppedK,
  sideSlope,
  siteOf,
  valveOpen,
  ventOpen,
} from "../document/defaults.ts";
import { type Range, ranges } from "../document/limits.ts";
import type { Part, PartId, PipeEnd, Section } from "../document/section.ts";

export type SweptQuantity =
  | "level"
  | "length"
  | "bore"
  | "flow"
  | "head"
  | "power"
  | "temperature"
  | "roughness"
  | "grain"
  | "share"
  | "number";

export type FieldPath = readonly (string | number)[];

export interface SweptField {
  /** in the part's object in the file; in the site's where `part` is null; `raised` is no field but a move */
  readonly path: FieldPath;
  readonly part: PartId | null;
  readonly label: string;
  readonly quantity: SweptQuantity;
  readonly range: Range;
  /** as it stands; null where the file leaves it out and nothing else is known */
  readonly value: number | null;
  /** only whole numbers */
  readonly whole?: boolean;
}

/** A vessel moved up or down with its openings: no field of the file, yet the one a builder asks for first. */
export const raised: FieldPath = ["raised"];

type Row = readonly [
  path: FieldPath,
  label: string,
  quantity: SweptQuantity,
  range: Range,
  value: number | null | undefined,
];

export function numberFields(section: Section, part: Part | null): readonly SweptField[] {
  const rows = part ? rowsOf(part) : siteRows(section);
  return rows.map(([path, label, quantity, range, value]) => ({
    path,
    part: part?.id ?? null,
    label,
    quantity,
    range,
    value: value ?? null,
    ...(range === ranges.count ? { whole: true } : {}),
  }));
}

function siteRows(section: Section): readonly Row[] {
  const site = siteOf(section);
  return [
    [["waterTemperature"], "Water temperature", "temperature", ranges.waterTemperature, site.waterTemperature],
    [["freeboard"], "Freeboard wanted", "length", ranges.freeboard, site.freeboard],
    [["tariff"], "Price of a kWh", "number", ranges.tariff, site.tariff],
    [["groundLevel"], "Ground level", "level", ranges.level, site.groundLevel],
  ];
}

/** Each kind by its own list; what decides most stands first. */
function rowsOf(part: Part): readonly Row[] {
  switch (part.kind) {
    case "pond":
      return [
        [["waterLevel"], "Water level, running", "level", ranges.level, part.waterLevel],
        [["rimLevel"], "Rim level", "level", ranges.level, part.rimLevel],
        [["bedLevel"], "Bed level", "level", ranges.level, part.bedLevel],
        [["width"], "Width, as drawn", "length", ranges.size, part.width],
        [["length"], "Length, into the page", "length", ranges.size, part.length],
        [["sideSlope"], "Side slope", "number", ranges.sideSlope, sideSlope(part)],
        [["x"], "Left edge", "length", ranges.x, part.x],
      ];
    case "vessel": {
      const plan: readonly Row[] =
        part.plan.shape === "round"
          ? [[["plan", "diameter"], "Diameter", "length", ranges.size, part.plan.diameter]]
          : [
              [["plan", "width"], "Width, as drawn", "length", ranges.size, part.plan.width],
              [["plan", "length"], "Length, into the page", "length", ranges.size, part.plan.length],
            ];
      return [
        [raised, "Base level, all of it raised", "level", ranges.level, part.baseLevel],
        [["rimLevel"], "Rim level", "level", ranges.level, part.rimLevel],
        [["baseLevel"], "Base level", "level", ranges.level, part.baseLevel],
        ...plan,
        [["clogging"], "Clogging", "number", ranges.clogging, cloggingOf(part)],
        ...mediaOf(part).flatMap((layer, k): readonly Row[] => [
          [["media", k, "depth"], `Depth of layer ${k + 1} from the base`, "length", ranges.layerDepth, layer.depth],
          [["media", k, "grain"], `Grain of layer ${k + 1} from the base`, "grain", ranges.grain, layer.grain],
          [["media", k, "porosity"], `Voids of layer ${k + 1} from the base`, "share", ranges.porosity, layer.porosity],
        ]),
        [["x"], "Left edge", "length", ranges.x, part.x],
      ];
    }
    case "pump":
      return [
        [["speed"], "Speed", "share", ranges.speed, pumpSpeed(part)],
        ...(part.curve
          ? part.curve.flatMap(([flow, head], k): readonly Row[] => [
              [["curve", k, 0], `Flow of point ${k + 1}`, "flow", ranges.flow, flow],
              [["curve", k, 1], `Head of point ${k + 1}`, "head", ranges.head, head],
            ])
          : ([
              [["maxFlow"], "Greatest flow", "flow", ranges.greatestFlow, part.maxFlow],
              [["maxHead"], "Greatest head", "head", ranges.greatestHead, part.maxHead],
            ] as const)),
        [["watts"], "Draws", "power", ranges.watts, part.watts],
        [["z"], "Intake level", "level", ranges.level, part.z],
        [["outletBore"], "Outlet bore", "bore", ranges.bore, part.outletBore],
        [["stoppedK"], "Loss when stopped, K", "number", ranges.coefficient, pumpStoppedK(part)],
        [["x"], "Place", "length", ranges.x, part.x],
      ];
    case "pipe":
      return [
        [["bore"], "Bore", "bore", ranges.bore, part.bore],
        [["extraLength"], "Length not drawn", "length", ranges.length, extraLengthOf(part)],
        ...endRows("from", "start", part.from),
        ...endRows("to", "end", part.to),
        [["hazenWilliamsC"], "Hazen-Williams C", "number", ranges.hazenWilliamsC, pipeC(part)],
        [["roughness"], "Roughness", "roughness", ranges.roughness, pipeRoughness(part)],
        ...(part.fittings ?? []).flatMap((fitting, k): readonly Row[] => [
          [["fittings", k, "count"], `Count of fitting ${k + 1}`, "number", ranges.count, fitting.count],
          ...(fitting.k === undefined
            ? []
            : ([[["fittings", k, "k"], `K of fitting ${k + 1}`, "number", ranges.coefficient, fitting.k]] as const)),
        ]),
      ];
    case "valve":
      return [
        [["open"], "Open", "share", ranges.share, valveOpen(part)],
        [["on", "at"], "From the pipe's start", "length", ranges.at, part.on.at],
      ];
    case "checkValve":
      return [
        [["openingHead"], "Opening head", "head", ranges.openingHead, openingHeadOf(part)],
        [["on", "at"], "From the pipe's start", "length", ranges.at, part.on.at],
      ];
    case "vent":
      return [
        [["bore"], "Bore", "bore", ranges.bore, part.bore],
        [["on", "at"], "From the pipe's start", "length", ranges.at, part.on.at],
        [["openEndZ"], "Open end", "level", ranges.level, part.openEndZ],
        [["open"], "Open", "share", ranges.share, ventOpen(part)],
      ];
    case "spillway":
      return [
        [["crestZ"], "Crest level", "level", ranges.level, part.crestZ],
        [["width"], "Width of the crest", "length", ranges.size, part.width],
      ];
    case "note":
      return [];
  }
}

function endRows(side: "from" | "to", word: string, end: PipeEnd): readonly Row[] {
  if ("open" in end)
    return [
      [[side, "z"], `Level of its ${word}`, "level", ranges.level, end.z],
      [[side, "x"], `Place of its ${word}`, "length", ranges.x, end.x],
    ];
  if ("pipe" in end) return [[[side, "at"], `Place of its ${word} on the other pipe`, "length", ranges.at, end.at]];
  return [
    ...(end.z === undefined ? [] : ([[[side, "z"], `Level of its ${word}`, "level", ranges.level, end.z]] as const)),
    ...(end.x === undefined ? [] : ([[[side, "x"], `Place of its ${word}`, "length", ranges.x, end.x]] as const)),
  ];
}
