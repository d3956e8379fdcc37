import type { PartId, Pump } from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import { bodiesOf } from "../../state/inOrder.ts";
import { type Field, labelField, quantity } from "./field.ts";

export const pumpFields: readonly Field<Pump>[] = [
  labelField(),
  {
    kind: "choice",
    label: "Draws from",
    get: (p) => p.in ?? "",
    options: (_, section) => [
      ["", "a pipe (stands outside)"],
      ...bodiesOf(section).map((b) => [b.id, partName(b)] as const),
    ],
    set: (p, value) => {
      if (value === "") delete p.in;
      else p.in = value as PartId;
    },
  },
  quantity(
    "Intake level",
    "level",
    (p) => p.z,
    (p, v) => {
      p.z = v;
    },
  ),
  { kind: "curve", label: "Pump curve" },
  {
    kind: "quantity",
    quantity: "power",
    label: "Draws",
    get: (p) => p.watts,
    optional: () => null,
    set: (p, v) => {
      if (v === undefined) delete p.watts;
      else p.watts = v;
    },
  },
  {
    kind: "number",
    label: "Speed",
    percent: true,
    get: (p) => p.speed,
    optional: () => 1,
    set: (p, v) => {
      if (v === undefined) delete p.speed;
      else p.speed = v;
    },
    hint: () => "Scales the curve; 0 % is off.",
  },
  {
    kind: "quantity",
    quantity: "bore",
    label: "Outlet bore",
    get: (p) => p.outletBore,
    optional: () => null,
    set: (p, v) => {
      if (v === undefined) delete p.outletBore;
      else p.outletBore = v;
    },
    hint: () => "Empty: the bore of its first pipe.",
  },
  {
    kind: "number",
    label: "Loss when stopped, K",
    get: (p) => p.stoppedK,
    optional: () => 10,
    set: (p, v) => {
      if (v === undefined) delete p.stoppedK;
      else p.stoppedK = v;
    },
    hint: () => "On its outlet bore, water passing backwards. 10 is from memory.",
  },
  quantity(
    "Place",
    "place",
    (p) => p.x,
    (p, v) => {
      p.x = v;
    },
  ),
];
