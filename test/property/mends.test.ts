/** Every mend offered removes its finding, and brings no failure: seen again here, from the file that would be saved,
 * with its power cut and both its starts.
 *
 * All findings of a thousand drawings with all their mends take minutes. A usual run looks at every eighth drawing, and
 * tries every fourth finding, another place in the list from drawing to drawing; `MENDS=all` tries them all. */
import { describe, expect, it } from "vitest";
import { type Assessed, assess } from "../../hydraulics/assess.ts";
import { readSection } from "../../hydraulics/document/read.ts";
import type { Section } from "../../hydraulics/document/section.ts";
import { writeSection } from "../../hydraulics/document/write.ts";
import type { Finding } from "../../hydraulics/findings/finding.ts";
import { mendsFor, remedies } from "../../hydraulics/mends/index.ts";
import { readDrawing } from "../scenarios/readDrawing.ts";
import { drawingCount, manyDrawings, nameOf } from "../support/drawings.ts";
import { randomSection } from "../support/randomSection.ts";

const all = process.env.MENDS === "all";
/** Judging a drawing takes longer than mending one of its findings: so a few findings each of few drawings. */
const everyDrawing = all ? 1 : 8;
const everyFinding = all ? 1 : 4;

/** All that findings hang on; the range of uncertain inputs is none of it. */
const whole = { quick: true, starts: true } as const;

function again(section: Section): Assessed {
  const read = readSection(writeSection(section));
  if (!read.ok) throw new Error(`a mend cannot be read back: ${JSON.stringify(read.error[0])}`);
  return assess(read.value, whole);
}

const names = ({ code, parts }: Finding): string => `${code} ${parts[0] ?? ""}`;
const failures = ({ findings }: Assessed): string[] =>
  findings.filter(({ severity }) => severity === "failure").map(names);

/** What is wrong with the mends of one finding of a drawing, in words; and how many there were. */
function faultsOf(section: Section, before: Assessed, finding: Finding): { count: number; wrong: string[] } {
  const wrong: string[] = [];
  let count = 0;
  for (const { label, section: mended, sideEffect } of mendsFor(section, before, finding)) {
    count++;
    const after = again(mended);
    if (after.findings.some((left) => names(left) === names(finding))) wrong.push(`${names(finding)} stays: ${label}`);
    const fresh = failures(after).filter((name) => !failures(before).includes(name));
    if (fresh.length > 0) wrong.push(`${label} brings ${fresh.join(", ")}`);
    if (label === "" || sideEffect === "" || /NaN|undefined|Infinity/.test(label + sideEffect))
      wrong.push(`says "${label} (${sideEffect})"`);
  }
  return { count, wrong };
}

describe("mends over random drawings", () => {
  it("each of those offered removes its finding and brings no failure", () => {
    const wrong: string[] = [];
    const tried = { drawings: 0, findings: 0, mends: 0, largest: 0 };
    // Counted on from drawing to drawing, so that each place in the list of findings has its turn.
    let turn = 0;
    for (const [k, each] of [...manyDrawings()].entries()) {
      if (k % everyDrawing !== 0) continue;
      const wanted = { ...each, seed: each.seed + 100 };
      const section = randomSection(wanted);
      const before = assess(section, whole);
      tried.drawings++;
      for (const finding of before.findings) {
        // Where nothing can be offered there is nothing to try, and no turn to take.
        if (!remedies.has(finding.code) || turn++ % everyFinding !== 0) continue;
        const of = faultsOf(section, before, finding);
        tried.findings++;
        tried.mends += of.count;
        if (of.count > 0) tried.largest = Math.max(tried.largest, wanted.size);
        wrong.push(...of.wrong.map((words) => `${nameOf(wanted)}: ${words}`));
      }
    }

    expect(wrong).toEqual([]);
    expect(tried.drawings).toBeGreaterThanOrEqual(drawingCount / everyDrawing);
    expect(tried.mends).toBeGreaterThan((2 * drawingCount) / (everyDrawing * everyFinding));
    expect(tried.largest).toBe(4);
  }, 900_000);

  it("a mend never changes the drawing that it was made from", () => {
    const section = readDrawing("../scenarios/design/low-breather.json");
    const before = writeSection(section);
    const assessed = assess(section, whole);

    for (const finding of assessed.findings) mendsFor(section, assessed, finding);

    expect(writeSection(section)).toBe(before);
  });
});
