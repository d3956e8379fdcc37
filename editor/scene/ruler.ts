/** The ruler of levels on the left frame edge. */
import { foot } from "../../hydraulics/index.ts";
import { siteAt } from "../sheet/transform.ts";
import { formatLevel, levelUnit, type UnitSystem } from "../sheet/units.ts";
import { type Drawing, paperAt } from "./drawing.ts";
import { corners, stroke, words } from "./ink.ts";
import { rulerWidth } from "./layout.ts";
import { letters } from "./letters.ts";
import type { SceneNode } from "./node.ts";

/** mm between two ticks, and between two written levels, at least */
const ticksApart = 2.4;
const figuresApart = 9;

export function drawRuler(drawing: Drawing): readonly SceneNode[] {
  const { field, frame } = drawing.layout;
  const unit = drawing.system === "metric" ? 1 : foot;
  const mm = drawing.transform.mmPerMetre * unit;
  const minor = step(ticksApart / mm, [1, 2, 5]);
  const major = step(Math.max(figuresApart / mm, minor), [1, 5]);
  const [, top] = siteAt(drawing.transform, [frame.x, field.y + 7]);
  const [, bottom] = siteAt(drawing.transform, [frame.x, field.y + field.height - 1]);
  const nodes: SceneNode[] = [
    // Whatever is zoomed in under the ruler stays faint.
    stroke(
      "sheet ruler ground",
      corners({ x: frame.x, y: field.y, width: rulerWidth, height: field.height }),
      "hair",
      "none",
      { closed: true, fill: "sheet", opacity: 0.82 },
    ),
    {
      ...words("sheet ruler unit", [frame.x + 2, field.y + 4.2], `level, ${levelUnit(drawing.system)}`, {
        size: letters.small,
        fill: "soft",
      }),
    },
  ];
  for (let i = Math.ceil(bottom / unit / minor - 1e-9); i * minor * unit <= top + 1e-9; i++) {
    const value = i * minor;
    const [, y] = paperAt(drawing, [0, value * unit]);
    const isMajor = Math.abs(value / major - Math.round(value / major)) < 1e-6;
    const middle = !isMajor && Math.abs((2 * value) / major - Math.round((2 * value) / major)) < 1e-6;
    nodes.push(
      stroke(
        `sheet tick ${i}`,
        [
          [frame.x, y],
          [frame.x + (isMajor ? 3.4 : middle ? 2.4 : 1.5), y],
        ],
        isMajor ? "dimension" : "hair",
        isMajor ? "ink" : "soft",
      ),
    );
    // A figure this low would stand on the field's own edge.
    if (isMajor && y + 2 <= field.y + field.height)
      nodes.push(
        words(
          `sheet level ${i}`,
          [frame.x + rulerWidth - 1.6, y + 1.05],
          shortLevel(value * unit, major, drawing.system),
          { size: letters.small, fill: "soft", anchor: "end" },
        ),
      );
  }
  return nodes;
}

/** The smallest of 1, 2, 5 × 10ⁿ that is not under the wanted. */
function step(wanted: number, of: readonly number[]): number {
  const ten = 10 ** Math.floor(Math.log10(wanted));
  return of.map((factor) => factor * ten).find((value) => value >= wanted * 0.999) ?? 10 * ten;
}

/** As many places as the step has. */
function shortLevel(level: number, major: number, system: UnitSystem): string {
  const full = formatLevel(level, system);
  const places = Math.max(0, -Math.floor(Math.log10(major) + 1e-9));
  const point = full.indexOf(".");
  return places === 0 ? full.slice(0, point) : full.slice(0, point + 1 + Math.min(Math.max(places, 1), 3));
}
