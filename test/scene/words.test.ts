/** All words on the sheet by their place: labels, dimensions, ruler, scale bar, strip, title block. No two cover each
 * other, no leader, level shelf, stroke of a dimension or ground line runs through any, none hangs over the paper's edge. */
import { describe, expect, test } from "vitest";
import type { LineNode, SceneNode, TextNode } from "../../editor/scene/node.ts";
import { textWidth } from "../../editor/scene/textWidth.ts";
import { paperOf, type Rect, type SheetTransform } from "../../editor/sheet/transform.ts";
import { drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";
import { paperOfWindow, sampled, sceneOf, windows, zoomed } from "./sheets.ts";

type Mm = readonly [number, number];
/** three and five presses of + and five of −, a quarter each, and as it opens */
const zooms = [1, 1.25 ** 3, 1.25 ** 5, 1.25 ** -5];

function boxOf(node: TextNode, transform: SheetTransform): Rect {
  const [px, py] = node.space === "paper" ? node.at : paperOf(transform, node.at);
  const [x, y] = [px + (node.offset?.[0] ?? 0), py + (node.offset?.[1] ?? 0)];
  const width = textWidth(node.text, node.size, node.weight);
  const before = node.anchor === "start" ? 0 : node.anchor === "middle" ? width / 2 : width;
  // From the capitals' tops to the feet: what hangs under them is no reason to read two words as one.
  const tall = 0.7 * node.size;
  // Upright words are turned a quarter to the left: they go up from their place.
  return node.turn === -90
    ? { x: x - tall, y: y + before - width, width: tall, height: width }
    : { x: x - before, y: y - tall, width, height: tall };
}

const meet = (a: Rect, b: Rect): boolean =>
  a.x < b.x + b.width - 0.05 &&
  b.x < a.x + a.width - 0.05 &&
  a.y < b.y + b.height - 0.05 &&
  b.y < a.y + a.height - 0.05;

function runsThrough(points: readonly Mm[], rect: Rect): boolean {
  for (const [x, y] of sampled(points))
    if (x > rect.x && x < rect.x + rect.width && y > rect.y && y < rect.y + rect.height) return true;
  return false;
}

const inMm = (points: LineNode["points"], transform: SheetTransform): readonly Mm[] =>
  points.map((place) => paperOf(transform, place));

const isLine = (key: string): boolean =>
  / leader$/.test(key) || /(rise|width \d+) (line|help \d+)$/.test(key) || /^sheet width help/.test(key);

function linesOf(node: SceneNode): readonly (readonly Mm[])[] {
  if (node.shape === "line" && node.space === "paper" && isLine(node.key)) return [node.points];
  // The oblique stroke at a dimension's end.
  if (node.shape === "path" && / stroke \d$/.test(node.key)) {
    const [x, y] = node.at;
    return [
      [
        [x - 1.1, y + 1.1],
        [x + 1.1, y - 1.1],
      ],
    ];
  }
  return [];
}

describe.each(drawingsIn(samples))("%s", (file) => {
  const section = readDrawing(file);

  test.each(Object.entries(windows))("in a %s window no words cover others, a leader or a stroke", (_, size) => {
    const paper = paperOfWindow(size);
    for (const system of ["metric", "us"] as const)
      for (const zoom of zooms) {
        const transform = zoomed(section, paper, zoom);
        const { nodes } = sceneOf(section, paper, { system, zoom });
        const texts = nodes.filter((node): node is TextNode => node.shape === "text" && node.text.trim() !== "");
        const boxes = texts.map((node) => boxOf(node, transform));
        const lines = nodes.flatMap((node) => linesOf(node).map((points) => ({ key: node.key, points })));
        const found: string[] = [];
        texts.forEach((text, i) => {
          const box = boxes[i] as Rect;
          texts.forEach((other, j) => {
            if (j > i && meet(box, boxes[j] as Rect)) found.push(`"${text.text}" on "${other.text}"`);
          });
          for (const { key, points } of lines)
            if (runsThrough(points, box)) found.push(`${key} through "${text.text}" of ${text.key}`);
          if (box.x < 0 || box.y < 0 || box.x + box.width > paper.width || box.y + box.height > paper.height)
            found.push(`"${text.text}" hangs over the edge`);
        });
        const ground = nodes.filter((node) => node.shape === "line" && /^sheet ground \d+$/.test(node.key));
        for (const { points } of ground as readonly LineNode[])
          texts.forEach((text, i) => {
            if (text.layer !== "frame" && runsThrough(inMm(points, transform), boxes[i] as Rect))
              found.push(`the ground line through "${text.text}" of ${text.key}`);
          });
        expect(texts.length).toBeGreaterThan(10);
        expect(found, `${system}, ${zoom}`).toEqual([]);
      }
  });
});
