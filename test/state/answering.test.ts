import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { startAnswering } from "../../editor/worker/answering.ts";
import type { Answer, Question } from "../../editor/worker/messages.ts";
import { type FaultResult, readSection, type Section } from "../../hydraulics/index.ts";

function sample(file: string): Section {
  const read = readSection(readFileSync(new URL(`../../samples/${file}`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
}

const pond = sample("fish-pond.json");

/** A worker whose questions come when the test says so. */
function started({ until = Number.POSITIVE_INFINITY } = {}) {
  const told: Answer[] = [];
  let steps = 0;
  const answer = startAnswering({ goesOn: async () => ++steps <= until, tell: (said) => told.push(said) });
  const ask = async (question: Omit<Question, "run">): Promise<readonly FaultResult[]> => {
    const said = await answer({ run: 1, ...question });
    if (!said || !("assessment" in said)) throw new Error(JSON.stringify(said));
    return said.assessment.faults;
  };
  return { answer, ask, told };
}

describe("answering questions in the worker", () => {
  it("tells the fault that is played with the plain answer, and the same of it as the survey", async () => {
    const { ask, told } = started();
    const all = await ask({ section: pond, depth: "faults" });
    expect(all.length).toBeGreaterThan(2);
    const steps = told.length;
    for (const { fault, part } of all.slice(0, 3)) {
      for (const depth of ["full", "mends", "quick"] as const) {
        const alone = await ask({ section: pond, depth, played: { fault, part } });
        expect(alone.map((one) => [one.fault, one.part, one.outcome])).toEqual([
          [fault, part, all.find((one) => one.fault === fault && one.part === part)?.outcome],
        ]);
      }
      const [alone] = await ask({ section: pond, depth: "full", played: { fault, part } });
      expect(alone).toEqual(all.find((one) => one.fault === fault && one.part === part));
    }
    expect(told.length).toBe(steps);
  });

  it("tells no fault that the drawing no longer has, and none that nobody plays", async () => {
    const { ask } = started();
    expect(await ask({ section: pond, depth: "full", played: { fault: "noSuchFault", part: null } })).toEqual([]);
    expect(await ask({ section: pond, depth: "full" })).toEqual([]);
  });

  it("does not begin with a section where a newer question has come already", async () => {
    const { answer } = started({ until: 0 });
    expect(await answer({ run: 1, section: pond, depth: "full" })).toBeNull();
  });

  it("leaves a survey between two faults", async () => {
    const { answer, told } = started({ until: 3 });
    expect(await answer({ run: 1, section: pond, depth: "faults" })).toBeNull();
    expect(told.length).toBe(3);
  });
});
