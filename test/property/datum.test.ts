/** Where the datum lies is the draughtsman's choice: a drawing lifted as a whole runs as before. */
import { describe, expect, test } from "vitest";
import { readSection } from "../../hydraulics/document/read.ts";
import type { Section } from "../../hydraulics/document/section.ts";
import { writeSection } from "../../hydraulics/document/write.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { designs, drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";

const isLevel = (field: string): boolean => field === "z" || /(Level|Z)$/.test(field);

/** Every level of the drawing by so much higher. */
function lifted(section: Section, by: number): Section {
  const shift = (field: string, value: unknown): unknown => {
    if (typeof value === "number") return isLevel(field) ? value + by : value;
    if (field === "route") return (value as [number, number][]).map(([x, z]) => [x, z + by]);
    if (Array.isArray(value)) return value.map((each) => shift("", each));
    if (value === null || typeof value !== "object") return value;
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, shift(key, inner)]));
  };
  const text = JSON.parse(writeSection({ ...section, site: { groundLevel: 0, ...section.site } }));
  const read = readSection(JSON.stringify(shift("", text)));
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
}

const flowsOf = (section: Section): readonly number[] => {
  const { solved, network } = solveSteady(section);
  expect(solved.converged).toBe(true);
  return [...network.pipes.values()].flatMap(({ stretches }) => stretches.map(({ link }) => link.Q));
};

describe.each(drawingsIn(designs, samples))("%s", (path) => {
  test.each([90, -90])("runs as before %d m higher", (by) => {
    const section = readDrawing(path);
    const [here, there] = [flowsOf(section), flowsOf(lifted(section, by))];

    expect(there.length).toBe(here.length);
    here.forEach((Q, k) => {
      expect(Math.abs((there[k] as number) - Q), `link ${k}`).toBeLessThan(1e-7);
    });
  });
});
