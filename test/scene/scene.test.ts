/** What the sheet shows of a drawing: levels where they are, words that are true, nothing where nothing is known. */
import { describe, expect, test } from "vitest";
import { buildScene, composeScene } from "../../editor/scene/build.ts";
import { fitSection } from "../../editor/scene/layout.ts";
import type { LineNode, SceneNode } from "../../editor/scene/node.ts";
import { shownUntil, stripAxis } from "../../editor/scene/strip.ts";
import { formatFlow } from "../../editor/sheet/units.ts";
import { partId, type Running, type Section } from "../../hydraulics/index.ts";
import { designs, drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";
import { assessmentOf } from "../support/assessmentOf.ts";
import { note, pipe, pond, pump, section, vessel } from "../support/builders.ts";
import { paperOfWindow, sceneOf, windows } from "./sheets.ts";

const drawings = drawingsIn(designs, samples);
const wide = paperOfWindow(windows.wide);

const wordsOf = (nodes: readonly SceneNode[]): readonly string[] =>
  nodes.flatMap((node) => (node.shape === "text" ? [node.text] : []));
const nodeOf = (nodes: readonly SceneNode[], key: string): SceneNode | undefined =>
  nodes.find((node) => node.key === key);
const numbersIn = (value: unknown): readonly number[] =>
  typeof value === "number"
    ? [value]
    : typeof value === "object" && value !== null
      ? Object.values(value).flatMap(numbersIn)
      : [];

/** A sheet of a section that nobody solved. */
const unsolved = (drawn: Section, running: Running | null = null): readonly SceneNode[] =>
  buildScene({
    section: drawn,
    running,
    powerCut: null,
    findings: [],
    view: { system: "metric", moment: null, transform: fitSection(drawn, wide), paper: wide },
  });

describe.each(drawings)("%s", (file) => {
  const drawn = readDrawing(file);

  test("every node has a key of its own and holds only numbers that are numbers", () => {
    for (const view of [{}, { moment: 40 }, { system: "us" as const }, { zoom: 3 }]) {
      const { nodes } = sceneOf(drawn, wide, view);
      const keys = nodes.map(({ key }) => key);
      expect(new Set(keys).size).toBe(keys.length);
      expect(numbersIn(nodes).filter((value) => !Number.isFinite(value))).toEqual([]);
      expect(wordsOf(nodes).filter((text) => /NaN|undefined|Infinity|null/.test(text))).toEqual([]);
    }
  });

  test("water stands in every body at the level that was solved, and later at the simulated one", () => {
    const { running, powerCut } = assessmentOf(drawn);
    if (!running.converged || !powerCut) throw new Error("a design drawing has an answer");
    const last = powerCut.history.times.at(-1) as number;
    const now = sceneOf(drawn, wide).nodes;
    const then = sceneOf(drawn, wide, { moment: last }).nodes;

    for (const [id, { level }] of running.vessels) {
      // To what the drawing rounds readings to before it places them (half a billionth of a metre, then 24 bits), so
      // that solves of the same water draw the same. That is a thousandth of what is written, a millimetre, at most.
      for (const [, z] of (nodeOf(now, `${id} surface`) as LineNode).points) {
        expect(Math.abs(z - level)).toBeLessThanOrEqual(0.51e-9 + Math.abs(level) * 2 ** -24);
      }
      const end = powerCut.history.levels.get(id)?.at(-1) as number;
      const surface = nodeOf(then, `${id} surface`) as LineNode | undefined;
      if (surface) expect(surface.points[0]?.[1]).toBeCloseTo(end, 9);
    }
  });
});

describe("the verdict", () => {
  const said = (file: string): string => wordsOf(sceneOf(readDrawing(file), wide).nodes).join(" | ");

  test.each([
    ["design/courtyard.json", /Holds its water, \| by geometry/],
    ["design/cellar-wall.json", /Holds its water, \| by a moving part/],
    ["design/pinhole-breather.json", /Drains, to \+0\.0/],
    ["design/low-breather.json", /Drains, to \+0\.45/],
    ["design/mill-pair.json", /Fails; held by geometry/],
  ])("%s", (file, words) => {
    expect(said(file)).toMatch(words);
  });

  test("is told by a shape too: whole, with a hinge's gap, or running out", () => {
    const bars = (file: string): readonly LineNode[] =>
      sceneOf(readDrawing(file), wide).nodes.filter((node): node is LineNode =>
        node.key.startsWith("sheet verdict bar"),
      );

    expect(bars("design/courtyard.json")).toHaveLength(1);
    expect(bars("design/courtyard.json")[0]?.points).toHaveLength(4);
    expect(bars("design/cellar-wall.json")).toHaveLength(2);
    expect(bars("design/pinhole-breather.json")[0]?.points).toHaveLength(6);
  });
});

describe("where nothing is known nothing is shown", () => {
  const figures = (nodes: readonly SceneNode[]): readonly string[] =>
    nodes.flatMap((node) => (node.shape === "text" && /^sheet figure \d$/.test(node.key) ? [node.text] : []));

  test("an empty sheet says so", () => {
    const nodes = unsolved(section([]));

    expect(wordsOf(nodes)).toContain("An empty sheet");
    expect(figures(nodes)).toEqual(["—", "—", "—"]);
  });

  test("a run that did not converge shows the parts and no figures", () => {
    const drawn = section([pond(), vessel(), pump(), pipe({ label: "Long supply" })]);
    const nodes = unsolved(drawn, { converged: false, parts: [partId("supply")], largestResidual: 1, iterations: 50 });

    expect(wordsOf(nodes)).toContain("No answer found");
    expect(wordsOf(nodes).join(" ")).toContain("Long supply");
    expect(figures(nodes)).toEqual(["—", "—", "—"]);
    expect(nodeOf(nodes, "vessel surface")).toBeUndefined();
    expect(wordsOf(nodes).filter((text) => /L\/h|m\/s/.test(text))).toEqual([]);
  });

  test("without a vessel there is no verdict to give", () => {
    expect(wordsOf(sceneOf(section([pond()]), wide).nodes)).toContain("No filter vessel");
  });
});

describe("pipes", () => {
  const walls = (mmPerMetre: number): LineNode => {
    const drawn = section([pond(), vessel(), pump(), pipe({ bore: 0.034 })]);
    const nodes = buildScene({
      section: drawn,
      running: null,
      powerCut: null,
      findings: [],
      view: { system: "metric", moment: null, transform: { x0: -1, z0: 2, mmPerMetre }, paper: wide },
    });
    return nodeOf(nodes, "supply walls") as LineNode;
  };

  test("have their true bore between two lines where that is over 4 px, else one line", () => {
    // 34 mm at 50 mm a metre is 1.7 mm of paper, 6.4 px; at 30 it is 1.02 mm, 3.9 px.
    expect(walls(50).siteWidth).toBeGreaterThan(0.034);
    expect(walls(30).siteWidth).toBeUndefined();
  });

  test("a shut flush holds water up to its valve", () => {
    const { nodes } = sceneOf(readDrawing("design/courtyard.json"), wide);
    const water = nodeOf(nodes, "purge water 0") as LineNode;

    // From the tub's right wall, x 3.1 + 0.8, to the valve 0.25 m on.
    expect(water.points.map(([x]) => Math.round(x * 1e6) / 1e6)).toEqual([3.9, 4.15]);
    expect(nodeOf(nodes, "purge arrow 0")).toBeUndefined();
  });

  test("arrows turn round where water runs against the drawn direction", () => {
    const { nodes } = sceneOf(readDrawing("design/cellar-wall.json"), wide);
    const arrow = nodeOf(nodes, "supply arrow 0");

    // The first stretch goes straight up.
    expect(arrow?.shape === "path" ? arrow.turn : null).toBeCloseTo(-90, 6);
  });

  test("the clock moves the arrows at the water's speed", () => {
    const drawn = readDrawing("design/courtyard.json");
    const { running } = assessmentOf(drawn);
    const velocity = running.converged ? (running.pipes.get(partId("supply"))?.velocity ?? 0) : 0;
    const at = (clock: number): number => {
      const arrow = nodeOf(sceneOf(drawn, wide, { clock }).nodes, "supply arrow 0");
      return arrow?.shape === "path" ? (arrow.at[1] as number) : Number.NaN;
    };

    expect(at(0.05) - at(0)).toBeCloseTo(Math.abs(velocity) * 0.05, 6);
  });
});

describe("text of a document", () => {
  const hostile = "</text><script>alert(1)</script>\u0000\u202e ".repeat(9);

  test("stays plain letters, without what commands a terminal or turns the writing", () => {
    const drawn = {
      ...section([pond({ label: hostile }), vessel({ label: hostile }), note({ text: hostile })]),
      title: hostile,
    };
    const words = wordsOf(unsolved(drawn));

    const commands = (text: string): boolean =>
      [...text].some((letter) => {
        const code = letter.codePointAt(0) as number;
        return (
          code < 0x20 ||
          (code >= 0x7f && code <= 0x9f) ||
          (code >= 0x200b && code <= 0x200f) ||
          (code >= 0x2028 && code <= 0x202e)
        );
      });
    expect(words.filter(commands)).toEqual([]);
    expect(words.some((text) => text.includes("<script>"))).toBe(true);
  });

  test("long names and notes do not run off the sheet", () => {
    const drawn = section([
      pond({ label: "w".repeat(400) }),
      vessel({ label: "long ".repeat(80) }),
      note({ text: "word ".repeat(80) }),
    ]);
    const { labels } = composeScene({
      section: drawn,
      running: null,
      powerCut: null,
      findings: [],
      view: { system: "metric", moment: null, transform: fitSection(drawn, wide), paper: wide },
    });

    expect(labels.map(({ key }) => key)).toEqual(expect.arrayContaining(["pond name", "vessel name", "note text"]));
    for (const { box } of labels) expect(box.x + box.width).toBeLessThanOrEqual(wide.width);
  });
});

test.each([
  [1, /about 1:\d+/],
  [400, /about \d[\d.]*:1\b/],
])("zoomed in %i times the title block still gives a scale", (zoom, scale) => {
  expect(wordsOf(sceneOf(readDrawing("design/courtyard.json"), wide, { zoom }).nodes).join(" | ")).toMatch(scale);
});

test("in the power cut a still pipe says which one it is, where its place is wide enough", () => {
  const { powerCut } = assessmentOf(readDrawing("design/courtyard.json"));
  const last = powerCut?.history.times.at(-1) as number;

  const said = wordsOf(sceneOf(readDrawing("design/courtyard.json"), wide, { moment: last }).nodes);

  expect(said).toContain("Return: no flow");
  expect(said.filter((text) => text === "no flow").length).toBeLessThan(2);
});

test("a pump that does not run costs nothing, and is not said to lack its watts", () => {
  const loose = section([pond(), pump({ in: undefined, x: 9, z: 1 })]);

  const said = wordsOf(sceneOf(loose, wide).nodes);

  expect(said).toContain("no pump runs");
  expect(said).not.toContain("watts not given");
});

describe("the strip", () => {
  test("its axis and its inverse agree, and end where nothing moves any more", () => {
    const { powerCut } = assessmentOf(readDrawing("design/courtyard.json"));
    if (!powerCut) throw new Error("the courtyard has a power cut");
    const axis = stripAxis(powerCut);

    for (const time of [0, 3, 60, 900]) expect(axis.timeAt(axis.shareAt(time))).toBeCloseTo(time, 6);
    expect(axis.shareAt(shownUntil(powerCut))).toBeCloseTo(1, 9);
    expect(shownUntil(powerCut)).toBeLessThanOrEqual(Math.max(powerCut.duration, 60));
  });

  test.each(Object.keys(windows) as (keyof typeof windows)[])(
    "names every body that fails, wherever else there is no room for names, in a window that is %s",
    (size) => {
      for (const file of drawings) {
        const drawn = readDrawing(file);
        const { powerCut } = assessmentOf(drawn);
        const { nodes } = sceneOf(drawn, paperOfWindow(windows[size]));
        const failed = [
          ...[...(powerCut?.vessels ?? [])].filter(([, { verdict }]) => verdict === "drains"),
          ...[...(powerCut?.ponds ?? [])].filter(([, { overflows }]) => overflows),
        ];
        for (const [id] of failed) {
          const name = nodeOf(nodes, `sheet strip name ${id}`);
          expect(name, `${file}: ${id}`).toBeDefined();
          expect(name?.fill).toBe("drains");
        }
      }
    },
  );

  test("draws no curves where nothing moves, and says so", () => {
    const nodes = sceneOf(section([pond()]), wide).nodes;

    expect(wordsOf(nodes)).toContain("nothing moves");
    expect(nodes.filter(({ key }) => key.startsWith("sheet strip curve"))).toEqual([]);
  });
});

test("two hundred parts take a bounded number of nodes a part", () => {
  const parts = Array.from({ length: 50 }, (_, i) => [
    pond({ id: `pond-${i}`, x: i * 8 }),
    vessel({ id: `vessel-${i}`, x: i * 8 + 3.6 }),
    pump({ id: `pump-${i}`, x: i * 8 + 0.4, in: `pond-${i}` }),
    pipe({
      id: `pipe-${i}`,
      from: { part: `pump-${i}` },
      to: { part: `vessel-${i}`, z: 0.1 },
      route: [
        [i * 8 + 0.4, 0.7],
        [i * 8 + 3.3, 0.7],
        [i * 8 + 3.3, 0.1],
      ],
    }),
  ]).flat();

  expect(unsolved(section(parts)).length).toBeLessThan(200 * 12);
});

test("what one pump gives and another passes back is not delivered", () => {
  const drawn = readDrawing("traps/standby-pump-open.json");
  const words = wordsOf(sceneOf(drawn, wide).nodes);
  const { running } = assessmentOf(drawn);
  const pumps = running.converged ? [...running.pumps.values()].map(({ flow }) => flow) : [];
  const [back, given] = pumps.sort((a, b) => a - b) as [number, number];

  expect(back).toBeLessThan(0);
  expect(words).toContain(formatFlow(given + back, "metric"));
  expect(words).toContain(`${formatFlow(-back, "metric")} runs back`);
});
