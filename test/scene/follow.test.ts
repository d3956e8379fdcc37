/** A picture that follows the hand takes over what did not change. It must be the picture that is built from nothing
 * with the same places held: else something on the sheet is out of date. */
import { describe, expect, test } from "vitest";
import type { SceneInput } from "../../editor/scene/build.ts";
import { metresOf, paperAt } from "../../editor/scene/drawing.ts";
import type { PlacedLabel } from "../../editor/scene/labels.ts";
import { fitSection } from "../../editor/scene/layout.ts";
import type { Mm } from "../../editor/scene/obstacles.ts";
import { compose, follow, hold, nodesOf, type Picture } from "../../editor/scene/picture.ts";
import { moveParts } from "../../editor/state/actions/moveParts.ts";
import {
  assess,
  lineLength,
  type PartId,
  pipeLine,
  placeAt,
  type Section,
  solveRunning,
} from "../../hydraulics/index.ts";
import { randomSection } from "../support/randomSection.ts";
import { seeded } from "../support/seeded.ts";
import { paperOfWindow, windows } from "./sheets.ts";

const paper = paperOfWindow(windows.wide);
const first = (section: Section): SceneInput => ({
  section,
  running: solveRunning(section, { quick: true }).running,
  powerCut: null,
  findings: [],
  view: {
    system: "metric",
    moment: null,
    transform: fitSection(section, paper, { headroom: 16 }),
    paper,
    headroom: 16,
  },
});
const solvedWith = (input: SceneInput, section: Section): SceneInput => ({
  ...input,
  section,
  running: solveRunning(section, { quick: true }).running,
});

/** A part of the section moved, turned on or off, taken away or put back: what a preview can hold. */
function changed(section: Section, whole: Section, random: ReturnType<typeof seeded>): Section {
  const ids = [...section.parts.keys()];
  const id = random.pick(ids) as PartId;
  const part = section.parts.get(id);
  const by = (): number => random.between(-0.3, 0.3);
  switch (part?.kind) {
    case "valve":
    case "checkValve":
    case "vent": {
      if (random.between(0, 1) < 0.4) {
        const rest = new Map(section.parts);
        rest.delete(id);
        return { ...section, parts: rest };
      }
      const next = part.kind === "valve" ? { ...part, open: random.pick([0, 1]) } : part;
      return { ...section, parts: new Map(section.parts).set(id, next) };
    }
    default: {
      const moved = moveParts(section, new Set([id]), by(), by());
      if (moved.ok) return moved.section;
      return whole;
    }
  }
}

/** Places on the axes of all pipes, half a millimetre of paper apart. */
function* alongPipes({ drawing }: Picture): Iterable<Mm> {
  for (const pipe of drawing.parts) {
    if (pipe.kind !== "pipe") continue;
    const line = pipeLine(drawing.section, pipe);
    const length = lineLength(line);
    const step = metresOf(drawing, 0.5);
    for (let at = 0; at <= length; at += step) yield paperAt(drawing, placeAt(line, at));
  }
}

const isDeepIn = ([x, y]: Mm, box: PlacedLabel["box"]): boolean =>
  x > box.x + 0.2 && x < box.x + box.width - 0.2 && y > box.y + 0.2 && y < box.y + box.height - 0.2;

describe("a picture that follows the hand", () => {
  test.each([1, 2, 3, 4, 5])(
    "is the one built from nothing, seed %i",
    (seed) => {
      const whole = randomSection({ seed: seed * 7, size: 3 });
      const random = seeded(seed);
      let input = first(whole);
      let picture: Picture = compose(input);
      const { placement } = picture;

      for (let step = 0; step < 14; step++) {
        const section = random.between(0, 1) < 0.1 ? whole : changed(input.section, whole, random);
        // Figures come and go: a drag may be faster than the solver.
        input = random.between(0, 1) < 0.15 ? { ...input, section, running: null } : solvedWith(input, section);
        picture = follow(input, picture);

        expect(nodesOf(picture)).toEqual(nodesOf(hold(input, placement)));
      }
    },
    20_000,
  );

  test("keeps the strip while the run and the names on it stay, and draws another where a run, a name or a moment comes", () => {
    const section = randomSection({ seed: 22, size: 5 });
    const { running, powerCut } = assess(section, { quick: true });
    const start: SceneInput = { ...first(section), running, powerCut };
    const found = compose(start);
    const strip = (picture: Picture) => picture.pieces.find(({ key }) => key === "sheet strip");
    const vessel = [...section.parts.values()].find(({ kind }) => kind === "vessel");
    if (!vessel) throw new Error("no vessel");
    const moved = moveParts(section, new Set([vessel.id]), 0.1, 0.1);
    if (!moved.ok) throw new Error(moved.why);
    const named = { ...section, parts: new Map(section.parts).set(vessel.id, { ...vessel, label: "Other name" }) };

    expect(strip(follow({ ...start, section: moved.section }, found))).toBe(strip(found));
    for (const other of [
      { ...start, section: named },
      { ...start, powerCut: null },
      { ...start, view: { ...start.view, moment: 30 } },
      { ...start, view: { ...start.view, system: "us" } },
    ] satisfies SceneInput[]) {
      const followed = follow(other, found);
      expect(nodesOf(followed)).toEqual(nodesOf(hold(other, found.placement)));
      expect(strip(followed)).not.toBe(strip(found));
    }
  });

  test.each([3, 8, 22])(
    "shows no label over another or on a pipe wherever a body is dragged, and all of them back at its place, seed %i",
    (seed) => {
      const section = randomSection({ seed, size: 5 });
      const start = first(section);
      const found = compose(start);
      let picture = found;
      let met = 0;
      const bodies = [...section.parts.values()].filter(({ kind }) => kind === "vessel" || kind === "pond");
      for (const { id } of bodies)
        for (const by of [-1.2, -0.6, -0.3, 0.3, 0.6, 1.2]) {
          const moved = moveParts(section, new Set([id]), by, by / 4);
          if (!moved.ok) continue;
          picture = follow({ ...start, section: moved.section }, picture);
          const all = [...picture.held.values()].flat();
          const shown = all.filter(({ key }) => !picture.covered.has(key));
          met += all.length - shown.length;
          const drawn = new Set(nodesOf(picture).map(({ key }) => key));
          for (const { key, nodes } of all)
            expect(nodes.some((node) => drawn.has(node.key))).toBe(!picture.covered.has(key));
          for (const [i, a] of shown.entries())
            for (const b of shown.slice(0, i))
              expect(
                Math.min(a.box.x + a.box.width - b.box.x, b.box.x + b.box.width - a.box.x) > 0.2 &&
                  Math.min(a.box.y + a.box.height - b.box.y, b.box.y + b.box.height - a.box.y) > 0.2,
                `${a.key} over ${b.key}`,
              ).toBe(false);
          const axes = [...alongPipes(picture)];
          const under = shown.filter(({ box }) => axes.some((place) => isDeepIn(place, box)));
          expect(under.map(({ key }) => key)).toEqual([]);
        }
      expect(met).toBeGreaterThan(0);
      expect(nodesOf(follow(start, picture))).toEqual(nodesOf(found));
    },
  );

  test("at rest it has the nodes of the search, and every label where the search put it", () => {
    const input = first(randomSection({ seed: 3, size: 4 }));
    const found = compose(input);

    expect(nodesOf(follow(input, found))).toEqual(nodesOf(found));
    expect(nodesOf(hold(input, found.placement))).toEqual(nodesOf(found));
  });

  test("builds only what a moved part touches: the rest are the same objects", () => {
    const section = randomSection({ seed: 22, size: 5 });
    const input = first(section);
    const before = compose(input);
    const pump = [...section.parts.values()].find(({ kind }) => kind === "note" || kind === "pump");
    const moved = moveParts(section, new Set([pump?.id as PartId]), 0.05, 0);
    if (!moved.ok) throw new Error(moved.why);

    const after = follow({ ...input, section: moved.section }, before);

    const kept = new Set<unknown>(before.pieces);
    const fresh = after.pieces.filter((piece) => !kept.has(piece));
    expect(fresh.length).toBeGreaterThan(0);
    expect(fresh.length).toBeLessThan(after.pieces.length / 2);
  });
});
