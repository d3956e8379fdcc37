import type { Note, PartId, Spillway } from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import { bodiesOf } from "../../state/inOrder.ts";
import { type Field, labelField, quantity } from "./field.ts";

export const spillwayFields: readonly Field<Spillway>[] = [
  labelField(),
  quantity(
    "Crest level",
    "level",
    (s) => s.crestZ,
    (s, v) => {
      s.crestZ = v;
    },
  ),
  quantity(
    "Width of the crest",
    "length",
    (s) => s.width,
    (s, v) => {
      s.width = v;
    },
  ),
  {
    kind: "choice",
    label: "Crest",
    options: () => [
      ["sharp", "sharp"],
      ["broad", "broad"],
    ],
    get: (s) => s.crest ?? "sharp",
    set: (s, v) => {
      s.crest = v as "sharp" | "broad";
    },
  },
  {
    kind: "choice",
    label: "Cut into",
    options: (_, section) => bodiesOf(section).map((b) => [b.id, partName(b)] as const),
    get: (s) => s.from,
    set: (s, v) => {
      s.from = v as PartId;
    },
  },
  {
    kind: "choice",
    label: "Falls",
    options: (s, section) => [
      ["ground", "onto the ground"],
      ...bodiesOf(section)
        .filter((b) => b.id !== s.from)
        .map((b) => [b.id, `into ${partName(b)}`] as const),
    ],
    get: (s) => s.to,
    set: (s, v) => {
      s.to = v as PartId | "ground";
    },
  },
];

export const noteFields: readonly Field<Note>[] = [
  {
    kind: "text",
    label: "Text",
    long: true,
    get: (n) => n.text,
    set: (n, v) => {
      n.text = v;
    },
  },
  quantity(
    "Level",
    "level",
    (n) => n.z,
    (n, v) => {
      n.z = v;
    },
  ),
  quantity(
    "Place",
    "place",
    (n) => n.x,
    (n, v) => {
      n.x = v;
    },
  ),
];
