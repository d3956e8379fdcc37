/** The judge (levels only) and the simulation (flows in time) against each other, and laws that hold of both.
 *
 * Seeded: each failure names its seed, size and mode, the smallest size first, so that `randomSection` draws it again.
 * Run by `powerCut.test.ts`: a file of its own would make the thousand cuts again. */
import { describe, expect, it } from "vitest";
import { lineLength, pipeLine, placeAt } from "../../hydraulics/document/geometry.ts";
import type { Part, PartId, Pipe, Section, Vent, Vessel } from "../../hydraulics/document/section.ts";
import type { ClosedForm, ClosedFormVessel } from "../../hydraulics/powerCut/closedForm.ts";
import type { CutVessel } from "../../hydraulics/powerCut/powerCut.ts";
import { type Assessed, assessed, judgeAfter } from "../scenarios/assessed.ts";
import {
  section as drawing,
  pipe,
  pond,
  pump,
  returnPipe,
  vent as ventOf,
  vessel as vesselOf,
} from "../support/builders.ts";
import { nameOf as at, drawingCount } from "../support/drawings.ts";
import type { Wanted } from "../support/randomSection.ts";
import { seeded } from "../support/seeded.ts";
import { manyCuts } from "./manyCuts.ts";

/** m */
const near = 1e-3;

interface Found {
  readonly wanted: Required<Wanted>;
  readonly section: Section;
  readonly result: Assessed;
  readonly judged: ClosedForm;
}

/** Drawings of growing size that have a running state and a cut that ran to its end. */
const found: Found[] = [];
const tried = manyCuts().length;
for (const { wanted, section, result } of manyCuts())
  if (result && ranToItsEnd(result)) found.push({ wanted, section, result, judged: judgeAfter(section, result) });

function cutOf(section: Section): Assessed | null {
  const result = assessed(section);
  return result && ranToItsEnd(result) ? result : null;
}

function ranToItsEnd({ cut }: Assessed): boolean {
  return cut.failedAt === null;
}

const level = (z: number): string => z.toFixed(4);

it("a thousand drawings are looked at, nearly all of them to their end", () => {
  expect(tried).toBeGreaterThanOrEqual(drawingCount);
  expect(found.length).toBeGreaterThan(0.98 * tried);
});

describe("the final levels of a power cut", () => {
  it.each(["sensible", "wild"] as const)(
    "are those of the closed form in %s drawings, wherever that applies",
    (mode) => {
      const differ: string[] = [];
      let judgedVessels = 0;

      for (const { wanted, result, judged } of found) {
        if (wanted.mode !== mode) continue;
        for (const [id, cut] of result.cut.vessels) {
          const by = judged.vessels.get(id);
          if (!by?.applies) continue;
          judgedVessels++;
          const difference = differenceOf(cut, by);
          if (difference)
            differ.push(`${at(wanted)} ${id}: ${difference}; judged by ${by.binding.part}: ${by.binding.why}`);
        }
      }

      expect(judgedVessels).toBeGreaterThan(drawingCount / 5);
      expect(differ.length, `${differ.length} of ${judgedVessels}\n${differ.slice(0, 12).join("\n")}`).toBe(0);
    },
  );
});

function differenceOf(cut: CutVessel, by: ClosedFormVessel): string | null {
  if (cut.finalLevel < by.finalLevel - near || cut.finalLevel > by.finalLevel + by.columns + near) {
    return `ends at ${level(cut.finalLevel)}, by levels at ${level(by.finalLevel)} and at most ${level(by.columns)} over it`;
  }
  // Columns may lift a vessel over the line between drained and held; then both verdicts are right.
  const edge = Math.min(by.restingLevel, cut.startLevel) - 0.02;
  if (by.finalLevel < edge + 1e-4 && by.finalLevel + by.columns > edge - 1e-4) return null;
  if (cut.verdict !== by.verdict) return `is ${cut.verdict}, by levels ${by.verdict}`;
  return cut.heldBy === by.heldBy ? null : `is held by ${cut.heldBy}, by levels by ${by.heldBy}`;
}

// --- laws -------------------------------------------------------------------------------------------------

const withPart = (section: Section, part: Part): Section => ({
  ...section,
  parts: new Map(section.parts).set(part.id, part),
});

/** m by which a vessel ends under the lower of its start and resting level: how much it drains, wherever it starts */
const shortfall = ({ startLevel, restingLevel, finalLevel }: CutVessel): number =>
  Math.min(startLevel, restingLevel) - finalLevel;

/** Vessels that drain after a change though they did not, or drain more. Only where the rule applies before and after:
 * a vessel into which another runs may gain from what harms its neighbour. */
function* worsened(before: Found, after: Section): Iterable<string> {
  const then = cutOf(after);
  if (!then) return;
  const judgedBefore = before.judged;
  const judgedAfter = judgeAfter(after, then);
  for (const [id, cut] of before.result.cut.vessels) {
    const now = then.cut.vessels.get(id);
    const [was, is] = [judgedBefore.vessels.get(id), judgedAfter.vessels.get(id)];
    if (!now || !was?.applies || !is?.applies) continue;
    const more = shortfall(now) - shortfall(cut);
    // A vessel that only starts higher than before, or lower, is neither better nor worse off at the same end.
    const lower = cut.finalLevel - now.finalLevel;
    if (more > was.columns + near && lower > was.columns + near && shortfall(now) > 0.02) {
      yield `${at(before.wanted)} ${id}: ended ${level(shortfall(cut))} under, now ${level(shortfall(now))}`;
    }
  }
}

/** The highest place along a pipe, m from its `from` end. */
function topOf(section: Section, pipe: Pipe): number {
  const line = pipeLine(section, pipe);
  const bends = line.map((_, i) => lineLength(line.slice(0, i + 1)));
  const height = (here: number): number => placeAt(line, here)[1];
  return bends.reduce((best, here) => (height(here) > height(best) ? here : best), 0);
}

describe("laws of a power cut", () => {
  // Random drawings have their vents on top of the loop; here they stand anywhere on its two legs.
  it("raising an ample vent's tee up its leg never makes a vessel drain more", () => {
    const random = seeded(8);
    const broken: string[] = [];
    let tried = 0;

    for (let i = 0; i < drawingCount / 4; i++) {
      const top = random.between(0.65, 1.2);
      const low = random.between(0.12, top - 0.05);
      const high = random.between(low, top);
      const onRiser = random.chance(0.5);
      const bore = random.pick([0.02, 0.034, 0.045]);
      // The riser from the pump's outlet at −0.5, or past it and 2.9 m of loop the leg down to the vessel.
      const at = (z: number): number => (onRiser ? z + 0.5 : top + 0.5 + 2.9 + (top - z));
      const drawn = (z: number): Section =>
        drawing([
          pond(),
          vesselOf(),
          pump(),
          pipe({
            route: [
              [0.4, top],
              [3.3, top],
              [3.3, 0.1],
            ],
            bore,
          }),
          ventOf({ on: { pipe: "supply", at: at(z) }, bore: 0.02, openEndZ: top + 2 }),
          returnPipe(),
        ]);
      const [lower, upper] = [cutOf(drawn(low)), cutOf(drawn(high))];
      const rated = (of: Assessed | null) => of?.cut.vents.get("vent" as PartId)?.rating;
      if (!lower || !upper || rated(lower) !== "ample" || rated(upper) !== "ample") continue;
      tried++;
      const [a, b] = [lower, upper].map((of) => shortfall(of.cut.vessels.get("vessel" as PartId) as CutVessel)) as [
        number,
        number,
      ];
      if (b > a + near)
        broken.push(
          `loop ${level(top)}, ${onRiser ? "riser" : "leg"}: tee ${level(low)} ends ${level(a)} under, tee ${level(high)} ${level(b)}`,
        );
    }

    expect(tried).toBeGreaterThan(drawingCount / 16);
    expect(broken, broken.join("\n")).toEqual([]);
  }, 120_000);

  it("an added ample vent above the water never lets a vessel drain", () => {
    const broken: string[] = [];
    let tried = 0;

    for (const each of found) {
      if (each.wanted.mode !== "sensible") continue;
      for (const pipe of each.section.parts.values()) {
        if (pipe.kind !== "pipe" || each.result.running.pipes.get(pipe.id)?.runs !== "full") continue;
        const vessel = "part" in pipe.to ? each.section.parts.get(pipe.to.part) : undefined;
        if (vessel?.kind !== "vessel") continue;
        const vent = newVent(each.section, pipe);
        const tee = placeAt(pipeLine(each.section, pipe), vent.on.at)[1];
        if (tee < (each.result.cut.vessels.get(vessel.id)?.startLevel ?? Number.POSITIVE_INFINITY) + 0.005) continue;
        const vented = withPart(each.section, vent);
        const then = cutOf(vented);
        if (then?.cut.vents.get(vent.id)?.rating !== "ample") continue;
        tried++;
        for (const what of worsened(each, vented)) broken.push(`${what} (a vent on ${pipe.id})`);
        if (isOnlyWay(each.section, pipe, vessel)) {
          const held = then.cut.vessels.get(vessel.id);
          if (held?.verdict !== "held")
            broken.push(`${at(each.wanted)} ${vessel.id}: drains past an ample vent at ${level(tee)} on ${pipe.id}`);
        }
      }
    }

    expect(tried).toBeGreaterThan(5);
    expect(broken, broken.join("\n")).toEqual([]);
  }, 120_000);

  /** At the top, wide, and so tall that nothing spills. */
  function newVent(section: Section, pipe: Pipe): Vent {
    const top = topOf(section, pipe);
    const end = placeAt(pipeLine(section, pipe), top)[1] + 20;
    // A millimetre off a bend, where another vent may stand.
    return {
      id: "added-vent" as PartId,
      kind: "vent",
      rank: 1e6,
      on: { pipe: pipe.id, at: Math.max(0, top - 0.001) },
      bore: 0.1,
      openEndZ: end,
    };
  }

  /** No tee on the pipe, and nothing else in the vessel but returns that leave from its side or by a standpipe. */
  function isOnlyWay(section: Section, pipe: Pipe, vessel: Vessel): boolean {
    for (const part of section.parts.values()) {
      if (part.kind !== "pipe" || part.id === pipe.id) continue;
      for (const end of [part.from, part.to]) {
        if ("pipe" in end && end.pipe === pipe.id) return false;
        if (!("part" in end) || end.part !== vessel.id) continue;
        if (part.route && Math.max(...part.route.map(([, z]) => z)) > (end.z ?? 0) + 1e-6) return false;
        if (
          [...section.parts.values()].some(
            (valve) =>
              valve.kind === "valve" && valve.role === "flush" && valve.on.pipe === part.id && valve.open !== 0,
          )
        )
          return false;
        if ([...section.parts.values()].some((vent) => vent.kind === "vent" && vent.on.pipe === part.id)) return false;
      }
    }
    return (
      "part" in pipe.from &&
      ![...section.parts.values()].some((part) => part.kind === "vent" && part.on.pipe === pipe.id)
    );
  }

  it("taking the check valves out never helps", () => {
    const broken: string[] = [];
    let tried = 0;

    for (const each of found) {
      if (each.wanted.mode !== "sensible") continue;
      const kept = [...each.section.parts].filter(([, part]) => part.kind !== "checkValve");
      if (kept.length === each.section.parts.size) continue;
      tried++;
      const bare = { ...each.section, parts: new Map(kept) };
      const then = cutOf(bare);
      if (!then) continue;
      const [with_, without] = [each.judged, judgeAfter(bare, then)];
      for (const [id, cut] of then.cut.vessels) {
        const was = each.result.cut.vessels.get(id);
        if (!was || !with_.vessels.get(id)?.applies || !without.vessels.get(id)?.applies) continue;
        const helped = shortfall(was) - shortfall(cut);
        const slack = (with_.vessels.get(id)?.columns ?? 0) + near;
        // Without its valve a vessel over a pump that is off may be empty before the power fails: that is no help.
        if (helped > slack && cut.finalLevel - was.finalLevel > slack && shortfall(was) > 0.02) {
          broken.push(
            `${at(each.wanted)} ${id}: ended ${level(shortfall(was))} under with it, ${level(shortfall(cut))} without`,
          );
        }
      }
    }

    expect(tried).toBeGreaterThan(5);
    expect(broken, broken.join("\n")).toEqual([]);
  }, 120_000);
});
