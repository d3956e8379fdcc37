import { type Material, materialC, materialRoughness, type Pipe, sizeSeries } from "../../../hydraulics/index.ts";
import { type Field, labelField, quantity } from "./field.ts";

export const materialWords: readonly (readonly [Material, string])[] = [
  ["pvc", "PVC-U"],
  ["pe", "polyethylene"],
  ["hose", "smooth hose"],
  ["corrugated", "corrugated hose"],
  ["copper", "copper"],
  ["galvanised", "galvanised steel"],
];

export const pipeFields: readonly Field<Pipe>[] = [
  labelField(),
  { kind: "size", label: "Size" },
  quantity(
    "Bore",
    "bore",
    (p) => p.bore,
    (p, v) => {
      // A typed bore is no longer the one of a listed size.
      if (p.bore !== v) delete p.nominal;
      p.bore = v;
    },
  ),
  {
    kind: "choice",
    label: "Material",
    options: () => materialWords,
    get: (p) => p.material ?? "pvc",
    set: (p, value) => {
      // What is sold in one material is not sold in another.
      const series = sizeSeries.find(({ name }) => p.nominal?.startsWith(`${name}, `));
      if (series && series.material !== value) delete p.nominal;
      p.material = value as Material;
    },
  },
  { kind: "end", label: "From", which: "from" },
  { kind: "end", label: "To", which: "to" },
  { kind: "bends", label: "Bends" },
  {
    kind: "choice",
    label: "Bends drawn",
    options: () => [
      ["auto", "count as elbows"],
      ["none", "are laid in curves"],
    ],
    get: (p) => p.bends ?? "auto",
    set: (p, value) => {
      p.bends = value as "auto" | "none";
    },
  },
  { kind: "fittings", label: "Further fittings" },
  {
    kind: "quantity",
    quantity: "length",
    label: "Length not drawn",
    get: (p) => p.extraLength,
    optional: () => 0,
    set: (p, v) => {
      if (v === undefined) delete p.extraLength;
      else p.extraLength = v;
    },
  },
  {
    kind: "number",
    label: "Hazen-Williams C",
    get: (p) => p.hazenWilliamsC,
    optional: (p) => materialC[p.material ?? "pvc"],
    set: (p, v) => {
      if (v === undefined) delete p.hazenWilliamsC;
      else p.hazenWilliamsC = v;
    },
  },
  {
    kind: "quantity",
    quantity: "roughness",
    label: "Roughness",
    get: (p) => p.roughness,
    optional: (p) => materialRoughness[p.material ?? "pvc"],
    set: (p, v) => {
      if (v === undefined) delete p.roughness;
      else p.roughness = v;
    },
  },
];
