/** The system curve is the network's own: where it meets the pump's curve is the duty point, and it holds for any
 * other pump as well. Nothing here is compared with a parabola. */
import { describe, expect, test } from "vitest";
import type { PartId, Pump, Section } from "../../hydraulics/document/section.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { curveHead, headNeeded, plottedFlows, systemCurve } from "../../hydraulics/sweep/systemCurve.ts";
import { designs, drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";

const drawings = drawingsIn(samples, designs).map((path): readonly [string, Section] => [path, readDrawing(path)]);

describe.each(drawings)("%s", (_, section) => {
  const state = solveSteady(section);
  const running = [...state.network.pumps.values()].filter(
    ({ link, intake }) => link?.running && link.Q > 1e-6 && intake?.state !== "edge",
  );

  test("at the flow that a pump delivers the system needs the head that its curve gives", () => {
    expect(running.length).toBeGreaterThan(0);
    for (const { pump, link } of running) {
      if (!link) continue;
      const given = -link.law.loss(link.Q);
      const { head } = headNeeded(section, pump.id, link.Q);
      expect(head).not.toBeNull();
      // The solver's own tolerance for a loss is 1e-6 m.
      expect(Math.abs((head as number) - given), pump.id).toBeLessThan(5e-6);
    }
  });

  test("a pump made to give the head of another point delivers that point's flow", () => {
    const [first] = running;
    if (!first) return;
    const flow = 0.6 * (first.link?.Q ?? 0);
    const { head } = headNeeded(section, first.pump.id, flow);
    expect(head).not.toBeNull();
    const h = head as number;
    // A curve of quite another shape through the same point.
    const { maxFlow: _f, maxHead: _h, ...rest } = first.pump;
    const other: Pump = {
      ...rest,
      speed: 1,
      curve: [
        [0, Math.max(h, 0) + 1],
        [flow, h],
        [2 * flow, h - 3],
      ],
    };
    const solved = solveSteady({ ...section, parts: new Map(section.parts).set(other.id, other) });
    expect(solved.solved.converged).toBe(true);
    expect((solved.network.pumps.get(other.id)?.link?.Q ?? 0) / flow).toBeCloseTo(1, 4);
  });
});

test("the curve rises with the flow wherever no vent cuts in", () => {
  const section = readDrawing(`${samples}/courtyard-bog.json`);
  const pump = [...section.parts.values()].find((part) => part.kind === "pump") as Pump;

  const heads = [...systemCurve(section, pump.id, plottedFlows(pump, 12))].map(({ head }) => head);

  expect(heads.every((head) => head !== null)).toBe(true);
  for (let k = 1; k < heads.length; k++) expect(heads[k] as number).toBeGreaterThan((heads[k - 1] as number) - 1e-6);
});

test("more friction needs more head, at every flow but nearly none", () => {
  const section = readDrawing(`${samples}/courtyard-bog.json`);
  const pump = [...section.parts.values()].find((part) => part.kind === "pump") as Pump;
  const at = (c: number, k: number) =>
    headNeeded(section, pump.id, 0.0008, { scatter: { c, k, head: 1 } }).head as number;

  expect(at(0.93, 1.3)).toBeGreaterThan(at(1, 1));
  expect(at(1, 1)).toBeGreaterThan(at(1.07, 0.7));
});

test("the plotted pump curve is the one that the solver follows", () => {
  for (const [, section] of drawings) {
    const { network } = solveSteady(section);
    for (const { pump, link } of network.pumps.values()) {
      if (!link?.running) continue;
      for (const share of [0, 0.3, 0.8])
        expect(curveHead(pump, share * 0.0012)).toBeCloseTo(-link.law.loss(share * 0.0012), 12);
    }
  }
});

test("a part that is no pump, and no flow, have no head", () => {
  const section = drawings[0]?.[1] as Section;

  expect(headNeeded(section, "pond" as PartId, 0.001).head).toBeNull();
  expect(headNeeded(section, "nothing" as PartId, 0.001).head).toBeNull();
});
