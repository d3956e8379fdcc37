import { describe, expect, it } from "vitest";
import type { Section } from "../../hydraulics/index.ts";
import { pipe, pond, pump, section, vessel } from "../support/builders.ts";
import { sceneOf } from "./sheets.ts";

const paper = { width: 380, height: 240 };

function wordsOf(drawing: Section): string {
  return sceneOf(drawing, paper)
    .nodes.flatMap((node) => (node.shape === "text" ? [node.text] : []))
    .join(" | ");
}

describe("the size on a pipe's label", () => {
  it.each([
    ["PVC-U metric, SDR 21 (PN 10), 32", "32 mm PVC-U"],
    ["PVC Schedule 40, 1½ in", "1½ in PVC-U"],
    ["40 mm", "40 mm PVC-U"],
  ])("%s is written %s", (nominal, short) => {
    const words = wordsOf(section([pond(), vessel(), pump(), pipe({ nominal, material: "pvc" })]));

    expect(words).toContain(short);
    expect(words).not.toContain("…");
  });
});
