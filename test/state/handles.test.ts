import { expect, it } from "vitest";
import { handleAt, handlesOf } from "../../editor/canvas/grip.ts";
import type { PartId, Section } from "../../hydraulics/index.ts";
import { readDrawing } from "../scenarios/readDrawing.ts";

const section: Section = readDrawing("../../samples/courtyard-bog.json");
const idOf = (kind: string): PartId => {
  for (const part of section.parts.values()) if (part.kind === kind) return part.id;
  throw new Error(`no ${kind}`);
};
/** px a metre: as the sample is first shown in a window of 1440 px, and from so far that the vessel is 40 px wide */
const near = 1 / 190;
const far = 1 / 28;

it("a chosen vessel has a handle at each of its edges, and on each layer's top, where it is large enough on the screen", () => {
  const looks = handlesOf(section, idOf("vessel"), near).map(({ grip }) => grip.of);

  expect(looks.filter((of) => of === "edge")).toHaveLength(4);
  expect(looks).toContain("media");
});

it("from far away it has none that would hide it, and a press there takes hold of the vessel itself", () => {
  const vessel = idOf("vessel");

  expect(handlesOf(section, vessel, far)).toEqual([]);
  for (const { at } of handlesOf(section, vessel, near)) {
    expect(handleAt(section, new Set([vessel]), at, 9 * near, near)).not.toBeNull();
    expect(handleAt(section, new Set([vessel]), at, 9 * far, far)).toBeNull();
  }
});

it("handles that are drawn hide no more than half of what they are on", () => {
  // A bar with two arrow tips is 3.8 mm by 2.2 mm (`handNodes.ts`), 120 px².
  for (const kind of ["pond", "vessel"])
    for (let scale = 4; scale < 400; scale *= 1.1) {
      const part = section.parts.get(idOf(kind));
      if (part?.kind !== "pond" && part?.kind !== "vessel") throw new Error("no body");
      const width = part.kind === "pond" ? part.width : (part.plan as { readonly width: number }).width;
      const depth = part.rimLevel - (part.kind === "pond" ? part.bedLevel : part.baseLevel);
      const hidden = 120 * handlesOf(section, part.id, 1 / scale).length;
      expect(hidden / (width * depth * scale ** 2), `${kind} at ${scale} px a metre`).toBeLessThan(0.5);
    }
});

it("ends and bends of a pipe, and what sits on one, have theirs from any distance", () => {
  for (const kind of ["pipe", "valve", "vent"])
    expect(handlesOf(section, idOf(kind), far)).toEqual(handlesOf(section, idOf(kind), near));
});
