/** Where the words of an SVG stand, reckoned from its attributes alone. */
import { textWidth } from "../../editor/scene/textWidth.ts";
import type { XmlElement } from "../support/xml.ts";

export interface WordBox {
  readonly text: string;
  /** mm from the upper left corner of the file */
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

// Shares of the size: capitals stand 0.7 over the baseline in the sheet's face, tails hang 0.2 under it.
const over = 0.7;
const under = 0.2;

export function wordBoxes(root: XmlElement, down = 0): readonly WordBox[] {
  const moved = /^translate\(0 ([\d.]+)\)$/.exec(root.attributes.get("transform") ?? "");
  const here = down + Number(root.name === "g" && moved ? moved[1] : 0);
  const own = root.name === "text" && root.text.trim() !== "" ? [boxOf(root, here)] : [];
  return [...own, ...root.children.flatMap((child) => wordBoxes(child, here))];
}

function boxOf({ attributes, text }: XmlElement, down: number): WordBox {
  const number = (name: string): number => Number(attributes.get(name));
  const size = number("font-size");
  const weight = number("font-weight") as 400 | 500 | 600;
  const long = attributes.has("textLength") ? number("textLength") : textWidth(text, size, weight);
  const anchor = attributes.get("text-anchor") ?? "start";
  const before = anchor === "start" ? 0 : anchor === "end" ? long : long / 2;
  const [x, y] = [number("x"), number("y") + down];
  // Words that stand up are turned about the point that they hang on.
  if (/^rotate\(-90 /.test(attributes.get("transform") ?? ""))
    return { text, left: x - over * size, right: x + under * size, top: y - long + before, bottom: y + before };
  if (attributes.has("transform")) throw new Error(`words turned another way: ${attributes.get("transform")}`);
  return { text, left: x - before, right: x - before + long, top: y - over * size, bottom: y + under * size };
}

/** Pairs that cover each other by more than a hair of 0.1 mm. */
export function overlaps(boxes: readonly WordBox[]): readonly string[] {
  const found: string[] = [];
  boxes.forEach((a, i) => {
    for (const b of boxes.slice(i + 1)) {
      const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (across > 0.1 && down > 0.1) found.push(`"${a.text}" on "${b.text}"`);
    }
  });
  return found;
}
