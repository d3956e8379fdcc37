/** A name that holds a figure is a name to readers in feet and gallons too, wherever a sentence of results is shown. */
import { expect, test } from "vitest";
import { readingsOf } from "../../editor/panels/readings/readingsOf.ts";
import { spoken } from "../../editor/panels/verdict.ts";
import { before, momentAt } from "../../editor/svg/moments.ts";
import { sequenceSvg } from "../../editor/svg/sequence.ts";
import type { Part, PartId, Section } from "../../hydraulics/index.ts";
import { readDrawing } from "../scenarios/readDrawing.ts";
import { assessmentOf } from "../support/assessmentOf.ts";
import { sheetOf } from "./sheet.ts";

/** Every label of a drawing followed by a length, which in feet would be 7 ft 11 1/8 in. */
function named(section: Section): Section {
  const parts = new Map<PartId, Part>();
  for (const [id, part] of section.parts) parts.set(id, { ...part, label: `${part.label} 2.417 m` });
  return { ...section, parts };
}

test.each(["no-breather", "pinprick-breather", "two-steps"])("%s keeps the names of its parts", (file) => {
  const section = named(readDrawing(`../../samples/${file}.json`));
  const assessment = assessmentOf(section);
  const { running, powerCut, findings } = assessment;
  const options = { section, running, powerCut, findings, system: "us", paper: "Letter", theme: "print" } as const;
  const moments = powerCut ? [before, momentAt(powerCut, 60)] : [];

  const said = [
    sheetOf(section, { system: "us", paper: "Letter" }),
    sequenceSvg({ ...options, moments }),
    spoken(section, assessment, "us"),
    ...[...section.parts.values()].flatMap((part) => readingsOf(section, assessment, part, "us").notes),
  ];

  for (const text of said) expect(text).not.toMatch(/7 ft 11/);
  expect(said.join(" ")).toContain("2.417 m");
});
