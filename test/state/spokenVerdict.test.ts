import { readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { spoken } from "../../editor/panels/verdict.ts";
import { readDrawing } from "../scenarios/readDrawing.ts";
import { paperOfWindow, sceneOf, windows } from "../scene/sheets.ts";
import { assessmentOf } from "../support/assessmentOf.ts";

/** What the title block says, the words joined as they stand on the picture. */
function written(path: string): string {
  const { nodes } = sceneOf(readDrawing(path), paperOfWindow(windows.wide));
  return nodes.flatMap((node) => (node.shape === "text" ? [node.text] : [])).join(" ");
}

const folder = new URL("../scenarios/design/", import.meta.url);
const drawings = readdirSync(folder).map((name) => `design/${name}`);

describe("what is spoken is what the title block says", () => {
  test.each(drawings)("%s", (path) => {
    const section = readDrawing(path);
    const [verdict] = spoken(section, assessmentOf(section), "metric").split("; delivers");

    expect(verdict).not.toBe("");
    expect(written(path)).toContain(verdict);
  });

  test("a vessel that is held and overtops while the pump runs is not said to hold its water", () => {
    const section = readDrawing("design/thin-return.json");

    expect(spoken(section, assessmentOf(section), "metric")).toMatch(/^Fails; held by/);
  });
});
