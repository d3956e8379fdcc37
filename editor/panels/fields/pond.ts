import type { Pond } from "../../../hydraulics/index.ts";
import { type Field, labelField, quantity } from "./field.ts";

export const pondFields: readonly Field<Pond>[] = [
  labelField(),
  quantity(
    "Water level, running",
    "level",
    (p) => p.waterLevel,
    (p, v) => {
      p.waterLevel = v;
    },
  ),
  quantity(
    "Rim level",
    "level",
    (p) => p.rimLevel,
    (p, v) => {
      p.rimLevel = v;
    },
  ),
  quantity(
    "Bed level",
    "level",
    (p) => p.bedLevel,
    (p, v) => {
      p.bedLevel = v;
    },
  ),
  quantity(
    "Width, as drawn",
    "length",
    (p) => p.width,
    (p, v) => {
      p.width = v;
    },
  ),
  quantity(
    "Length, into the page",
    "length",
    (p) => p.length,
    (p, v) => {
      p.length = v;
    },
  ),
  {
    kind: "number",
    label: "Side slope",
    get: (p) => p.sideSlope,
    optional: () => 0,
    set: (p, v) => {
      if (v === undefined) delete p.sideSlope;
      else p.sideSlope = v;
    },
    hint: () => "Sideways for one down, on all four sides; 0 is upright.",
  },
  quantity(
    "Left edge",
    "place",
    (p) => p.x,
    (p, v) => {
      p.x = v;
    },
  ),
];
