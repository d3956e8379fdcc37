/** A drawing with one of every kind of part, sizes invented, for the tests of actions. */
import { type Part, partId, readSection, type Section } from "../../hydraulics/index.ts";

const text = JSON.stringify({
  format: "holdwater-section",
  version: 1,
  title: "Yard",
  site: { groundLevel: 0 },
  parts: [
    {
      id: "basin",
      kind: "pond",
      label: "Basin",
      x: 0,
      width: 3,
      length: 2,
      bedLevel: -0.7,
      rimLevel: 0.05,
      waterLevel: -0.05,
    },
    {
      id: "trough",
      kind: "vessel",
      label: "Trough",
      x: 4,
      plan: { shape: "rectangle", width: 1.2, length: 0.8 },
      baseLevel: 0,
      rimLevel: 0.8,
      media: [
        { depth: 0.2, grain: 0.04, porosity: 0.45 },
        { depth: 0.25, grain: 0.012, porosity: 0.4 },
      ],
      overflow: "basin",
    },
    {
      id: "lift",
      kind: "pump",
      label: "Pump",
      x: 0.4,
      z: -0.55,
      in: "basin",
      maxFlow: 0.0008,
      maxHead: 2.4,
      watts: 40,
    },
    {
      id: "supply",
      kind: "pipe",
      label: "Supply",
      from: { part: "lift" },
      to: { part: "trough", z: 0.1, mouth: "side" },
      route: [
        [0.4, 0.9],
        [3.7, 0.9],
        [3.7, 0.1],
      ],
      bore: 0.0284,
      material: "pvc",
    },
    {
      id: "return",
      kind: "pipe",
      label: "Return",
      from: { part: "trough", z: 0.62, mouth: "side" },
      to: { part: "basin", x: 2.6, z: 0.1, mouth: "down" },
      route: [[2.6, 0.6]],
      bore: 0.057,
      material: "pvc",
    },
    {
      id: "purge",
      kind: "pipe",
      label: "Purge",
      from: { part: "trough", z: 0.05, mouth: "side" },
      to: { open: true, x: 6, z: -0.05 },
      route: [[5.6, 0.05]],
      bore: 0.05,
      material: "pvc",
    },
    { id: "side-arm", kind: "pipe", from: { pipe: "supply", at: 3 }, to: { open: true, x: 2, z: 0.5 }, bore: 0.02 },
    { id: "breather", kind: "vent", on: { pipe: "supply", at: 4.5 }, bore: 0.01, openEndZ: 1.1 },
    { id: "tap", kind: "valve", on: { pipe: "purge", at: 0.3 }, type: "ball", open: 0, role: "flush" },
    { id: "flap", kind: "checkValve", on: { pipe: "supply", at: 0.6 } },
    { id: "lip", kind: "spillway", from: "trough", to: "basin", crestZ: 0.72, width: 0.3 },
    { id: "n1", kind: "note", x: 2, z: 1.4, text: "Keep the breather clear" },
  ],
});

export function yard(): Section {
  const read = readSection(text);
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
}

export const id = partId;

export function part<K extends Part["kind"]>(section: Section, name: string, kind: K): Extract<Part, { kind: K }> {
  const found = section.parts.get(partId(name));
  if (found?.kind !== kind) throw new Error(`${name} is no ${kind}: ${JSON.stringify(found)}`);
  return found as Extract<Part, { kind: K }>;
}
