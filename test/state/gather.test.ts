import { expect, it } from "vitest";
import { comeToStop, firstView, gather, isGathering, leaveStops } from "../../editor/state/view.ts";
import type { PartId } from "../../hydraulics/index.ts";

const [a, b, c] = ["a", "b", "c"] as unknown as readonly [PartId, PartId, PartId];

it("coming to a part chooses it in place of the one before, until one is kept; then others come to it and go", () => {
  const atB = comeToStop(comeToStop(firstView, a), b);
  expect([...atB.selection]).toEqual([b]);

  const kept = gather(atB, b);
  expect([...kept.selection]).toEqual([b]);
  expect(isGathering(kept)).toBe(true);
  const atC = comeToStop(comeToStop(kept, a), c);
  expect([...atC.selection]).toEqual([b]);
  expect(atC.stop).toBe(c);
  const both = gather(atC, c);
  expect([...both.selection]).toEqual([b, c]);
  expect([...gather(both, b).selection]).toEqual([c]);
});

it("any other choice ends it, as does taking the last one out", () => {
  const both = gather(comeToStop(gather(comeToStop(firstView, a), a), b), b);

  for (const other of [[], [a, b], [c]]) {
    const chosen = comeToStop({ ...both, selection: new Set(other) }, c);
    expect([...chosen.selection]).toEqual([c]);
  }
  const none = gather(gather(both, a), b);
  expect(none.selection.size).toBe(0);
  expect([...comeToStop(none, c).selection]).toEqual([c]);
});

it("of all that is chosen one can be taken out, and with nothing chosen the first is taken in", () => {
  expect([...gather({ ...firstView, selection: new Set([a, b, c]) }, b).selection]).toEqual([a, c]);
  expect([...gather(firstView, b).selection]).toEqual([b]);
});

it("away from the parts no part is marked, and what is chosen stays", () => {
  const kept = leaveStops(gather(comeToStop(firstView, a), a));

  expect(kept.stop).toBeNull();
  expect([...kept.selection]).toEqual([a]);
});
