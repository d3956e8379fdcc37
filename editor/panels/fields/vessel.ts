import type { PartId, Vessel } from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import { bodiesOf } from "../../state/inOrder.ts";
import { type Field, labelField, quantity } from "./field.ts";

export const vesselFields: readonly Field<Vessel>[] = [
  labelField(),
  quantity(
    "Rim level",
    "level",
    (v) => v.rimLevel,
    (v, to) => {
      v.rimLevel = to;
    },
  ),
  quantity(
    "Base level",
    "level",
    (v) => v.baseLevel,
    (v, to) => {
      v.baseLevel = to;
    },
  ),
  {
    kind: "choice",
    label: "Plan",
    options: () => [
      ["round", "round"],
      ["rectangle", "rectangular"],
    ],
    get: (v) => v.plan.shape,
    set: (v, value) => {
      if (value === v.plan.shape) return;
      // The same drawn width, and for a rectangle the length that keeps the plan area.
      if (value === "round" && v.plan.shape === "rectangle") v.plan = { shape: "round", diameter: v.plan.width };
      else if (value === "rectangle" && v.plan.shape === "round")
        v.plan = { shape: "rectangle", width: v.plan.diameter, length: Math.round(v.plan.diameter * 785.4) / 1000 };
    },
  },
  {
    kind: "quantity",
    quantity: "length",
    label: "Diameter",
    shownFor: (v) => v.plan.shape === "round",
    get: (v) => (v.plan.shape === "round" ? v.plan.diameter : undefined),
    set: (v, to) => {
      if (v.plan.shape === "round" && to !== undefined) v.plan.diameter = to;
    },
  },
  {
    kind: "quantity",
    quantity: "length",
    label: "Width, as drawn",
    shownFor: (v) => v.plan.shape === "rectangle",
    get: (v) => (v.plan.shape === "rectangle" ? v.plan.width : undefined),
    set: (v, to) => {
      if (v.plan.shape === "rectangle" && to !== undefined) v.plan.width = to;
    },
  },
  {
    kind: "quantity",
    quantity: "length",
    label: "Length, into the page",
    shownFor: (v) => v.plan.shape === "rectangle",
    get: (v) => (v.plan.shape === "rectangle" ? v.plan.length : undefined),
    set: (v, to) => {
      if (v.plan.shape === "rectangle" && to !== undefined) v.plan.length = to;
    },
  },
  { kind: "media", label: "Stone, from the top down" },
  {
    kind: "number",
    label: "Clogging",
    get: (v) => v.clogging,
    optional: () => 1,
    set: (v, to) => {
      if (to === undefined) delete v.clogging;
      else v.clogging = to;
    },
    hint: () => "Times the loss of clean stone; 1 is clean.",
  },
  {
    kind: "choice",
    label: "Over the rim it spills",
    get: (v) => v.overflow ?? "ground",
    options: (v, section) => [
      ["ground", "onto the ground"],
      ...bodiesOf(section)
        .filter((b) => b.id !== v.id)
        .map((b) => [b.id, `into ${partName(b)}`] as const),
    ],
    set: (v, value) => {
      v.overflow = value as PartId | "ground";
    },
  },
  quantity(
    "Left edge",
    "place",
    (v) => v.x,
    (v, to) => {
      v.x = to;
    },
  ),
];
