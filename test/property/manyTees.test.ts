/** Drawings of many tees: the work grows as the drawing does. Counted in look-ups, which hang on no machine. */
import { expect, it } from "vitest";
import type { Part, PartId, Pipe, PipeEnd, Section } from "../../hydraulics/document/section.ts";
import { must } from "../../hydraulics/must.ts";
import { buildNetwork } from "../../hydraulics/network/build.ts";
import { GravityLink } from "../../hydraulics/solver/links/gravityLink.ts";
import { restingLevel } from "../../hydraulics/solver/restingLevel.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { pipe, pond, pump, returnPipe, section, vessel } from "../support/builders.ts";

/** A return with so many gravity pipes on it, each on the one before (`chain`) or all on the return (`comb`); at the
 * start of each two ways meet again, so that the ways through them are 2ⁿ. */
function teed(shape: "chain" | "comb" | "ladder", count: number): Section {
  const pipes = Array.from({ length: count }, (_, k): Pipe => {
    const before: PartId = `tee-${k - 1}` as PartId;
    const from =
      k === 0 || shape === "comb"
        ? { pipe: "return" as PartId, at: 0.1 + (0.8 * k) / count }
        : { pipe: before, at: 0.02 };
    const to: PipeEnd =
      shape === "ladder" && k > 1
        ? { pipe: `tee-${k - 2}` as PartId, at: 0.3 }
        : { part: "pond" as PartId, x: 2, z: 0.03, mouth: "down" };
    return pipe({ id: `tee-${k}`, from, to, route: [[2.2, 0.45 - (0.3 * k) / count]], bore: 0.03 });
  });
  return section([pond(), vessel(), pump(), pipe(), returnPipe(), ...pipes]);
}

/** Parts that count how often one is looked up. */
class Counted extends Map<PartId, Part> {
  lookUps = 0;
  override get(id: PartId): Part | undefined {
    this.lookUps++;
    return super.get(id);
  }
}

it.each(["chain", "comb", "ladder"] as const)("a %s of twice the tees is laid out with twice the look-ups", (shape) => {
  const lookUps = (count: number): number => {
    const drawn = teed(shape, count);
    const parts = new Counted(drawn.parts);
    buildNetwork({ ...drawn, parts }, { pumps: "running", checkValves: "sound" });
    return parts.lookUps;
  };
  const few = lookUps(150);

  expect(few).toBeGreaterThan(150);
  expect(lookUps(300)).toBeLessThan(2.1 * few);
});

it.each(["chain", "comb", "ladder"] as const)("a resting level looks at each tee of a %s a few times", (shape) => {
  const state = solveSteady(teed(shape, 60));
  let sills = 0;
  for (const link of state.network.links) {
    if (!(link instanceof GravityLink)) continue;
    for (const law of [link.forward, link.backward]) {
      if (!law) continue;
      const { sill } = law;
      Object.defineProperty(law, "sill", {
        get: () => {
          sills++;
          return sill;
        },
      });
    }
  }
  const tub = state.network.section.parts.get("vessel" as PartId);
  must(tub?.kind === "vessel", "the base has a vessel");

  expect(restingLevel(state, tub)).not.toBeNull();
  expect(sills).toBeGreaterThan(60);
  expect(sills).toBeLessThan(10 * 60);
});
