/** Labels keep off each other, off pipes and off leaders, whatever the window, the zoom, the units and the moment. */
import { describe, expect, test } from "vitest";
import { drawingOf } from "../../editor/scene/drawing.ts";
import type { LabelRequest } from "../../editor/scene/labelRequest.ts";
import { LabelPlacer, type PlacedLabel } from "../../editor/scene/labels.ts";
import { sheetLayout } from "../../editor/scene/layout.ts";
import { halfWidth } from "../../editor/scene/pipe.ts";
import { paperOf, type Rect } from "../../editor/sheet/transform.ts";
import { pipeLine, type Section } from "../../hydraulics/index.ts";
import { designs, drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";
import { assessmentOf } from "../support/assessmentOf.ts";
import { paperOfWindow, sampled, sceneOf, windows, zoomed } from "./sheets.ts";

const drawings = drawingsIn(designs, samples);

type Mm = readonly [number, number];

const overlap = (a: Rect, b: Rect): number =>
  Math.min(
    Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x),
    Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y),
  );

/** By samples: another way than the placer's own. */
function lineInside(points: readonly Mm[], half: number, rect: Rect): boolean {
  for (const [x, y] of sampled(points)) {
    const dx = Math.max(rect.x - x, 0, x - rect.x - rect.width);
    const dy = Math.max(rect.y - y, 0, y - rect.y - rect.height);
    if (Math.hypot(dx, dy) < half) return true;
  }
  return false;
}

/** Whether both ends of a stretch of each lie to either side of a stretch of the other. */
function doCross(one: readonly Mm[], other: readonly Mm[]): boolean {
  const side = ([ax, ay]: Mm, [bx, by]: Mm, [x, y]: Mm): number => (bx - ax) * (y - ay) - (by - ay) * (x - ax);
  const apart = (a: Mm, b: Mm, p: Mm, q: Mm): boolean => side(a, b, p) * side(a, b, q) < 0;
  return one.slice(1).some((b, i) => {
    const a = one[i] as Mm;
    return other.slice(1).some((q, j) => {
      const p = other[j] as Mm;
      return apart(a, b, p, q) && apart(p, q, a, b);
    });
  });
}

function clashes(
  section: Section,
  labels: readonly PlacedLabel[],
  pipes: readonly { id: string; points: readonly Mm[]; half: number }[],
): readonly string[] {
  const found: string[] = [];
  labels.forEach((label, i) => {
    for (const other of labels.slice(i + 1))
      if (overlap(label.box, other.box) > 0) found.push(`${label.key} on ${other.key}`);
    for (const other of labels)
      if (other !== label && lineInside(other.leader, 0.01, label.box))
        found.push(`${label.key} on the leader of ${other.key}`);
    for (const pipe of pipes)
      if (lineInside(pipe.points, pipe.half, label.box)) found.push(`${label.key} on ${pipe.id}`);
  });
  expect(section.parts.size).toBeGreaterThan(0);
  return found;
}

function pipesOn(section: Section, paper: { width: number; height: number }, headroom: number, zoom = 1) {
  const { running, powerCut, findings } = assessmentOf(section);
  const transform = zoomed(section, paper, zoom, { headroom });
  const drawing = drawingOf({
    section,
    running,
    powerCut,
    findings,
    view: { system: "metric", moment: null, transform, paper, headroom },
  });
  return [...section.parts.values()].flatMap((part) =>
    part.kind === "pipe"
      ? [
          {
            id: part.id,
            points: pipeLine(section, part).map((place) => paperOf(transform, place)),
            half: halfWidth(drawing, part.bore),
          },
        ]
      : [],
  );
}

describe.each(drawings)("%s", (file) => {
  const section = readDrawing(file);

  test.each(Object.entries(windows))("in a %s window, in both units, no label covers anything", (_, size) => {
    const paper = paperOfWindow(size);
    const pipes = pipesOn(section, paper, 16);
    for (const system of ["metric", "us"] as const) {
      const { labels } = sceneOf(section, paper, { system });
      expect(clashes(section, labels, pipes)).toEqual([]);
    }
  });

  test.each(Object.entries(windows))("zoomed in a %s window, in both units, no label covers anything", (_, size) => {
    const paper = paperOfWindow(size);
    for (const zoom of [0.25, 0.6, 1.7, 4]) {
      const pipes = pipesOn(section, paper, 16, zoom);
      for (const system of ["metric", "us"] as const)
        expect(clashes(section, sceneOf(section, paper, { system, zoom }).labels, pipes)).toEqual([]);
    }
  });

  test.each(Object.entries(windows))("in a %s window no leader crosses another's, a note's apart", (_, size) => {
    const paper = paperOfWindow(size);
    const isNote = ({ part }: PlacedLabel): boolean => part !== null && section.parts.get(part)?.kind === "note";
    // A narrow sheet rather leaves a reading out; on a wide one that is zoomed out leaders may have to cross.
    for (const zoom of size === windows.narrow ? [1, 1.7, 0.6] : [1])
      for (const system of ["metric", "us"] as const) {
        const labels = sceneOf(section, paper, { system, zoom }).labels.filter((label) => !isNote(label));
        const found = labels.flatMap((label, i) =>
          labels
            .slice(i + 1)
            .filter((other) => doCross(label.leader, other.leader))
            .map((other) => `${label.key} across ${other.key}, ${system}, ${zoom}`),
        );
        expect(found).toEqual([]);
      }
  });

  test("while the power cut plays no label covers anything", () => {
    const paper = paperOfWindow(windows.wide);
    for (const moment of [0, 7, 60, 600, 7200]) {
      expect(clashes(section, sceneOf(section, paper, { moment }).labels, pipesOn(section, paper, 16))).toEqual([]);
    }
  });

  test("labels stay inside the field, clear of strip and title block", () => {
    for (const size of Object.values(windows)) {
      const paper = paperOfWindow(size);
      const { field } = sheetLayout(paper, { headroom: 16 });
      for (const { box } of sceneOf(section, paper).labels) {
        expect(box.x).toBeGreaterThanOrEqual(field.x);
        expect(box.y).toBeGreaterThanOrEqual(field.y);
        expect(box.x + box.width).toBeLessThanOrEqual(field.x + field.width);
        expect(box.y + box.height).toBeLessThanOrEqual(field.y + field.height);
      }
    }
  });

  test("on a wide sheet every body shows its water level, every pipe and device its name or figures", () => {
    const keys = new Set(sceneOf(section, paperOfWindow(windows.wide)).labels.map(({ key }) => key));

    const silent = [...section.parts.values()].filter(({ id, kind }) => {
      const key =
        kind === "pipe"
          ? "figures"
          : kind === "pond" || kind === "vessel"
            ? "water level"
            : kind === "note"
              ? "text"
              : "name";
      return !keys.has(`${id} ${key}`);
    });
    expect(silent.map(({ id }) => id)).toEqual([]);
  });

  test("the same drawing gives the same sheet", () => {
    const paper = paperOfWindow(windows.wide);

    expect(sceneOf(section, paper).nodes).toEqual(sceneOf(section, paper).nodes);
  });
});

describe("the placer", () => {
  const ask = (key: string, at: Mm, more: Partial<LabelRequest> = {}): LabelRequest => ({
    key,
    part: null,
    variants: [[{ size: 3, runs: [{ text: "a label", weight: 400, fill: "ink" }] }]],
    spots: [{ at, across: 0, down: 0 }],
    ...more,
  });
  const field = { x: 0, y: 0, width: 100, height: 100 };

  test("who comes second at a taken place is left out, not laid over", () => {
    const placer = new LabelPlacer(field);

    expect(placer.place(ask("first", [50, 50]))).not.toBeNull();
    expect(placer.place(ask("second", [50, 50]))).toBeNull();
    expect(placer.place(ask("third", [50, 60]))).not.toBeNull();
  });

  test("a sloping line is kept off where it runs, not where its box is", () => {
    const placer = new LabelPlacer(field);
    placer.obstacles.addLine(
      [
        [0, 0],
        [100, 100],
      ],
      0.5,
    );

    expect(placer.place(ask("on it", [50, 50]))).toBeNull();
    expect(placer.place(ask("beside it", [80, 20]))).not.toBeNull();
  });

  test("a leader goes round another's leader, further than round a line; where it can not, a crowded sheet leaves it out", () => {
    const first = ask("first", [0, 0], { spots: [{ at: [40, 10], across: 0, down: -1, leadFrom: [40, 90] }] });
    const across = { at: [60, 50], across: 1, down: 0, leadFrom: [30, 50] } as const;
    const overLine = { at: [20, 50], across: -1, down: 0, leadFrom: [30, 50] } as const;
    const placed = (spots: LabelRequest["spots"], crowded: boolean) => {
      const placer = new LabelPlacer(field, crowded);
      placer.obstacles.addLine(
        [
          [25, 10],
          [25, 90],
        ],
        0.3,
      );
      placer.place(first);
      return placer.place(ask("second", [0, 0], { spots }));
    };

    expect(placed([across, overLine], false)?.box.x).toBeLessThan(20);
    expect(placed([across], false)?.box.x).toBeGreaterThan(60);
    expect(placed([across], true)).toBeNull();
  });

  test("a leader goes round a line while another spot is free, and crosses it where none is", () => {
    const wall = [
      [40, 10],
      [40, 90],
    ] as const;
    const across = { at: [60, 50], across: 1, down: 0, leadFrom: [30, 50] } as const;
    const near = { at: [20, 50], across: -1, down: 0, leadFrom: [30, 50] } as const;
    const free = new LabelPlacer(field);
    free.obstacles.addLine(wall, 0.3);
    const taken = new LabelPlacer(field);
    taken.obstacles.addLine(wall, 0.3);
    taken.obstacles.addRect({ x: 0, y: 40, width: 19, height: 20 });

    const first = free.place(ask("label", [0, 0], { spots: [across, near] }));
    const second = taken.place(ask("label", [0, 0], { spots: [across, near] }));

    expect(first?.box.x).toBeLessThan(20);
    expect(second?.box.x).toBeGreaterThan(60);
  });
});
