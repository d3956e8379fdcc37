/** The grade line on the sheet is the report's, and the mark of suction lies where the pipe is over it. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { withCrossings } from "../../editor/scene/withCrossings.ts";
import { readSection } from "../../hydraulics/document/read.ts";
import { type PartId, partId, type Section } from "../../hydraulics/document/section.ts";
import { paperOfWindow, sceneOf, windows } from "../scene/sheets.ts";
import { assessmentOf } from "../support/assessmentOf.ts";

const open = (name: string): Section => {
  const read = readSection(readFileSync(new URL(`../../samples/${name}.json`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(name);
  return read.value;
};
const paper = paperOfWindow(windows.wide);
const lines = (section: Section, gradeLine: boolean, moment: number | null = null) =>
  sceneOf(section, paper, { gradeLine, moment }).nodes.filter(
    ({ key }) => / grade line \d+$/.test(key) || / under the atmosphere \d+$/.test(key),
  );
const gradeOf = (section: Section, id: PartId) => {
  const { running } = assessmentOf(section);
  if (!running.converged) throw new Error("not solved");
  return running.pipes.get(id)?.gradeLine ?? [];
};

test("the line is drawn where it is switched on, through the points of the running state", () => {
  const section = open("courtyard-bog");

  expect(lines(section, false)).toEqual([]);
  const supply = lines(section, true).find(({ key }) => key === "supply grade line 0");
  expect(supply?.shape === "line" ? supply.points : null).toEqual(
    gradeOf(section, partId("supply")).map(({ x, grade }) => [x, grade]),
  );
});

test("while a power cut is played it is not the running state's line that is shown", () => {
  expect(lines(open("courtyard-bog"), true, 10)).toEqual([]);
});

test("a loop without a breather is marked from where its pressure falls below the atmosphere to where it is back", () => {
  const section = open("no-breather");
  const marks = lines(section, true).filter(({ key }) => / under the atmosphere /.test(key));
  const line = withCrossings(gradeOf(section, partId("supply")));
  const under = line.filter(({ grade, z }) => grade !== null && grade < z - 1e-6);

  expect(under.length).toBeGreaterThan(0);
  expect(marks.length).toBe(1);
  const [mark] = marks;
  const points = mark?.shape === "line" ? mark.points : [];
  // Begins and ends where the grade line meets the axis: there the pressure is that of the atmosphere.
  for (const [x, z] of [points[0], points.at(-1)] as [number, number][]) {
    const meets = line.find((point) => point.x === x && point.z === z);
    expect(Math.abs((meets?.grade ?? 9) - z)).toBeLessThan(1e-9);
  }
  for (const { x, z } of under) expect(points).toContainEqual([x, z]);
});
