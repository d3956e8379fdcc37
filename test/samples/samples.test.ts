/** Each sample teaches what it says it teaches. What must come out is reasoned in `samples/lessons.ts`, by the rules of
 * the trade, and stands there for people to read; nothing here is taken from a run. */
import { describe, expect, test } from "vitest";
import { drawingOf } from "../../editor/scene/drawing.ts";
import { fitSection } from "../../editor/scene/layout.ts";
import { verdictOf } from "../../editor/scene/verdict.ts";
import { type Assessed, assess, partId, readSection, type Section, writeSection } from "../../hydraulics/index.ts";
import { type Lesson, lessons } from "../../samples/lessons.ts";
import { drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";
import { assessmentOf } from "../support/assessmentOf.ts";

const sample = (file: string): Section => readDrawing(`${samples}/${file}`);
const assessed = (file: string): Assessed => assessmentOf(sample(file));

const verdicts: Readonly<Record<Lesson["says"]["verdict"], RegExp>> = {
  geometry: /^Holds its water, by geometry$/,
  "a moving part": /^Holds its water, by a moving part$/,
  drains: /^Drains, to /,
  fails: /^Fails; held by geometry$/,
};

test("every drawing among the samples has its lesson, and there are at least eight", () => {
  const files = drawingsIn(samples);

  expect(lessons.map(({ file }) => `${samples}/${file}`).sort()).toEqual([...files].sort());
  expect(lessons.length).toBeGreaterThanOrEqual(8);
});

test("no two samples share a title, and each carries a note that says what it shows", () => {
  const sections = lessons.map(({ file }) => sample(file));

  expect(new Set(sections.map(({ title }) => title)).size).toBe(sections.length);
  for (const section of sections) expect([...section.parts.values()].some(({ kind }) => kind === "note")).toBe(true);
});

describe.each(lessons)("$file", ({ file, lesson, look, says, units }) => {
  test("opens, and is written as it was read", () => {
    const section = sample(file);

    const again = readSection(writeSection(section));

    expect(again).toEqual({ ok: true, value: section });
  });

  test(`says: ${says.verdict}; ${says.findings.join(", ")}`, () => {
    const { running, powerCut, findings } = assessed(file);
    const section = sample(file);
    const paper = { width: 380, height: 240 };
    const view = { system: units ?? "metric", moment: null, transform: fitSection(section, paper), paper } as const;
    const codes = new Set(findings.map(({ code }) => code));

    const { words } = verdictOf(drawingOf({ section, running, powerCut, findings, view }));

    expect(words).toMatch(verdicts[says.verdict]);
    expect(says.findings.filter((code) => !codes.has(code))).toEqual([]);
    expect(says.without.filter((code) => codes.has(code))).toEqual([]);
    expect(findings.some(({ severity }) => severity === "failure")).toBe(/drains|fails/.test(says.verdict));
  });

  // The levels that a lesson names are the program's own, to the digits they are given with.
  test("names levels that are on its sheet", () => {
    const { running, powerCut } = assessed(file);
    if (!running.converged) throw new Error("not solved");
    const section = sample(file);
    const known = [
      ...[...running.vessels.values()].map(({ level }) => level),
      ...[...running.ponds.values()].map(({ level }) => level),
      ...[...(powerCut?.vessels.values() ?? [])].map(({ finalLevel }) => finalLevel),
      ...[...running.vents.values()].map(({ teeLevel }) => teeLevel),
      ...[...section.parts.values()].flatMap((part) =>
        part.kind === "pipe"
          ? [
              ...(part.route ?? []).map(([, z]) => z),
              ...("z" in part.to && part.to.z !== undefined ? [part.to.z] : []),
              ...("z" in part.from && part.from.z !== undefined ? [part.from.z] : []),
            ]
          : [],
      ),
    ];

    for (const [text, digits] of [...`${lesson} ${look}`.matchAll(/\+\d+\.(\d+)/g)].map(
      (m) => [m[0], (m[1] as string).length] as const,
    ))
      expect(
        known.some((level) => Math.abs(level - Number(text)) < 0.5001 * 10 ** -digits),
        text,
      ).toBe(true);
  });

  test("is a pond of some size", () => {
    const { running } = assessed(file);
    if (!running.converged) throw new Error("not solved");

    for (const { volume } of running.ponds.values()) expect(volume).toBeGreaterThan(3);
  });
});

test("two pumps give less than each alone together, and more than either", () => {
  const section = sample("two-pumps.json");
  const alone = (off: string): number => {
    const parts = new Map(
      [...section.parts].map(([id, part]) => [id, id === off && part.kind === "pump" ? { ...part, speed: 0 } : part]),
    );
    return flowOf({ ...section, parts });
  };

  const both = flowOf(section);
  const day = alone("night");
  const night = alone("day");

  expect(both).toBeLessThan(day + night);
  expect(both).toBeGreaterThan(Math.max(day, night));
});

test("a larger breather turns the verdict of the pinprick", () => {
  const section = sample("pinprick-breather.json");
  const parts = new Map(
    [...section.parts].map(([id, part]) => [id, part.kind === "vent" ? { ...part, bore: 0.02 } : part]),
  );

  const { powerCut } = assess({ ...section, parts }, { quick: true });

  expect([...(powerCut?.vessels.values() ?? [])].map(({ verdict }) => verdict)).toEqual(["held"]);
});

function flowOf(section: Section): number {
  const { running } = assess(section, { quick: true });
  if (!running.converged) throw new Error("not solved");
  return running.vessels.get(partId("bed"))?.inflow ?? Number.NaN;
}
