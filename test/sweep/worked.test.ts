/** A formula with numbers in it is only worth its ink if it comes out: every line of every part of every sample is
 * worked out again here, by an evaluator of its own, from the characters that are printed. */
import { describe, expect, test } from "vitest";
import { solveRunning } from "../../hydraulics/assess.ts";
import type { Section } from "../../hydraulics/document/section.ts";
import { returnCurve } from "../../hydraulics/sweep/returnCurve.ts";
import { lineOf } from "../../hydraulics/worked/worked.ts";
import { workedOf } from "../../hydraulics/worked/workedOf.ts";
import { designs, drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";
import { pump, yard } from "../support/builders.ts";

const drawings = drawingsIn(samples, designs).map((path): readonly [string, Section] => [path, readDrawing(path)]);

/** Arithmetic as it is written on paper. Nothing of the program's own is used here. */
function workOut(text: string): number {
  let at = 0;
  const skip = () => {
    while (text[at] === " ") at++;
  };
  const take = (sign: string): boolean => {
    skip();
    if (text[at] !== sign) return false;
    at++;
    return true;
  };
  const atom = (): number => {
    skip();
    if (take("√")) {
      if (!take("(")) throw new Error(`a root without its bracket in ${text}`);
      const inside = sum();
      if (!take(")")) throw new Error(`an open bracket in ${text}`);
      return Math.sqrt(inside);
    }
    if (take("(")) {
      const inside = sum();
      if (!take(")")) throw new Error(`an open bracket in ${text}`);
      return inside;
    }
    skip();
    const number = /^\d+(\.\d+)?/.exec(text.slice(at))?.[0];
    if (number === undefined) throw new Error(`no number at ${at} of ${text}`);
    at += number.length;
    return Number(number);
  };
  const power = (): number => {
    const base = atom();
    return take("^") ? base ** power() : base;
  };
  const product = (): number => {
    let value = power();
    for (;;) {
      if (take("·")) value *= power();
      else if (take("/")) value /= power();
      else return value;
    }
  };
  const sum = (): number => {
    let value = product();
    for (;;) {
      if (take("+")) value += product();
      else if (take("−")) value -= product();
      else return value;
    }
  };
  const value = sum();
  skip();
  if (at !== text.length) throw new Error(`"${text.slice(at)}" is left over of ${text}`);
  return value;
}

test("the evaluator itself: powers before products, products before sums", () => {
  expect(workOut("1 + 2 · 3^2 / 4 − (1 − 0.5)")).toBe(5);
  expect(workOut("√(2 · 8) · 2")).toBe(8);
});

test("a slowed pump's share is of the greatest flow that its maker states, in the report and in the worked line", () => {
  const slow = pump({ speed: 0.8 });
  const section = yard({ with: [slow] });
  const { running } = solveRunning(section, { quick: true });
  const reading = running.converged ? running.pumps.get(slow.id) : undefined;
  if (!running.converged || !reading) throw new Error("not solved");
  const worked = workedOf(section, slow, running).find(({ what }) => what === "Share of the greatest flow");

  // The builders' curve ends at 0.0012 m³/s.
  expect(reading.shareOfGreatest).toBeCloseTo(reading.flow / 0.0012, 12);
  expect(worked?.expression.endsWith("/ 0.0012")).toBe(true);
  expect(worked?.result).toBeCloseTo((100 * reading.flow) / 0.0012, 9);
});

test("every figure of a vessel that follows from a formula has its line", () => {
  const section = readDrawing("../../samples/courtyard-bog.json");
  const { running } = solveRunning(section, { quick: true });
  const bog = [...section.parts.values()].find(({ kind }) => kind === "vessel");
  if (!running.converged || !bog) throw new Error("courtyard-bog");

  const lines = workedOf(section, bog, running).map(({ what }) => what);

  expect(lines).toEqual([
    "Margin of the return",
    "Gross volume",
    "Water in it",
    "Filled weight",
    "Vessel volumes an hour",
    "Retention time",
    "Upflow",
    "Smallest grain that settles",
    "Loss in the stone",
    "Wetted stone",
  ]);
});

describe.each(drawings)("%s", (_, section) => {
  const { running } = solveRunning(section, { quick: true });

  test("each printed line, worked out from what is printed, gives what is printed", () => {
    if (!running.converged) throw new Error("not solved");
    let lines = 0;
    for (const part of section.parts.values())
      for (const worked of workedOf(section, part, running)) {
        const line = lineOf(worked);
        const [left = "", right = ""] = line.split(" = ");
        const shown = Number(right.replace(worked.unit, "").trim());
        expect(Number.isFinite(shown), line).toBe(true);
        // Six digits go in, through powers of up to 4.87; four come out.
        expect(Math.abs(workOut(left) / shown - 1), `${part.id}: ${line}`).toBeLessThan(6e-4);
        // And the printed result is the solver's own.
        expect(Math.abs(shown / worked.result - 1), line).toBeLessThan(6e-4);
        lines++;
      }
    expect(lines).toBeGreaterThan(0);
  });

  test("what the return carries by level is, at the rim less the freeboard, the report's capacity", () => {
    if (!running.converged) throw new Error("not solved");
    for (const [id, reading] of running.vessels) {
      const vessel = section.parts.get(id);
      if (vessel?.kind !== "vessel") continue;
      const curve = returnCurve(section, id);
      const rated = vessel.rimLevel - (section.site.freeboard ?? 0.05);
      const point = curve.find(({ level }) => Math.abs(level - rated) < 1e-9);
      if (point) expect(point.flow).toBeCloseTo(reading.returnCapacity, 9);
      for (let k = 1; k < curve.length; k++)
        expect(curve[k]?.flow as number).toBeGreaterThanOrEqual((curve[k - 1]?.flow as number) - 1e-9);
    }
  });
});
