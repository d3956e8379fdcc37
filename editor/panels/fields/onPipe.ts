import type { CheckValve, Part, PartId, Section, Valve, Vent } from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import { inOrder } from "../../state/inOrder.ts";
import { type ChoiceField, type Field, labelField, type QuantityField, quantity } from "./field.ts";

type Device = Valve | CheckValve | Vent;

const pipesOf = (section: Section): readonly Part[] => inOrder(section).filter((part) => part.kind === "pipe");

function onPipe<P extends Device>(): ChoiceField<P> {
  return {
    kind: "choice",
    label: "On",
    get: (d) => d.on.pipe,
    options: (_, section) => pipesOf(section).map((pipe) => [pipe.id, partName(pipe)] as const),
    set: (d, value) => {
      (d as Device as { on: { pipe: PartId } }).on.pipe = value as PartId;
    },
  };
}

function along<P extends Device>(): QuantityField<P> {
  return {
    kind: "quantity",
    quantity: "length",
    label: "From its start",
    get: (d) => d.on.at,
    set: (d, v) => {
      if (v !== undefined) (d as Device as { on: { at: number } }).on.at = v;
    },
  };
}

export const valveFields: readonly Field<Valve>[] = [
  labelField(),
  {
    kind: "number",
    label: "Open",
    percent: true,
    get: (v) => v.open,
    optional: (v) => (v.role === "flush" ? 0 : 1),
    set: (v, to) => {
      if (to === undefined) delete v.open;
      else v.open = to;
    },
    hint: () => "0 % is shut.",
  },
  {
    kind: "choice",
    label: "Kind",
    options: () => [
      ["ball", "ball valve"],
      ["gate", "gate valve"],
    ],
    get: (v) => v.type ?? "ball",
    set: (v, to) => {
      v.type = to as "ball" | "gate";
    },
  },
  {
    kind: "choice",
    label: "Serves to",
    options: () => [
      ["throttle", "throttle"],
      ["flush", "flush"],
    ],
    get: (v) => v.role ?? "throttle",
    set: (v, to) => {
      v.role = to as "throttle" | "flush";
    },
  },
  onPipe(),
  along(),
];

export const checkValveFields: readonly Field<CheckValve>[] = [
  labelField(),
  {
    kind: "quantity",
    quantity: "openingHead",
    label: "Opening head",
    get: (v) => v.openingHead,
    optional: () => 0,
    set: (v, to) => {
      if (to === undefined) delete v.openingHead;
      else v.openingHead = to;
    },
    hint: () => "A swing flap needs none, a spring about 0.35 m of water.",
  },
  {
    kind: "choice",
    label: "State",
    options: () => [
      ["sound", "sound"],
      ["stuck", "stuck open"],
    ],
    get: (v) => (v.stuckOpen ? "stuck" : "sound"),
    set: (v, to) => {
      v.stuckOpen = to === "stuck";
    },
  },
  onPipe(),
  along(),
];

export const ventFields: readonly Field<Vent>[] = [
  labelField(),
  quantity(
    "Bore",
    "bore",
    (v) => v.bore,
    (v, to) => {
      v.bore = to;
    },
  ),
  {
    kind: "quantity",
    quantity: "level",
    label: "Open end",
    get: (v) => v.openEndZ,
    optional: () => null,
    set: (v, to) => {
      if (to === undefined) delete v.openEndZ;
      else v.openEndZ = to;
    },
    hint: () => "Empty: a bare valve on the pipe.",
  },
  {
    kind: "number",
    label: "Open",
    percent: true,
    get: (v) => v.open,
    optional: () => 1,
    set: (v, to) => {
      if (to === undefined) delete v.open;
      else v.open = to;
    },
  },
  onPipe(),
  along(),
];
