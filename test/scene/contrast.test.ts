/** Words are read on whatever they lie on: the contrast of the Web Content Accessibility Guidelines 2.2, success criterion
 * 1.4.3 (level AA, 4.5 to 1 for letters under 24 px), by the relative luminance and contrast ratio that their glossary
 * defines. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Role, SceneNode } from "../../editor/scene/node.ts";
import { type Palette, palettes } from "../../editor/scene/palette.ts";
import { readDrawing } from "../scenarios/readDrawing.ts";
import { paperOfWindow, sceneOf, windows } from "./sheets.ts";

/** red, green, blue, each 0 to 1 */
type Colour = readonly number[];

const colourOf = (hex: string): Colour => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255);
const linear = (c: number): number => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
const luminance = (colour: Colour): number => {
  const [r = 0, g = 0, b = 0] = colour.map(linear);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const contrast = (a: Colour, b: Colour): number => {
  const [x, y] = [luminance(a), luminance(b)];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
};
const over = (colour: Colour, opacity: number, ground: Colour): Colour =>
  colour.map((c, i) => c * opacity + (ground[i] ?? 0) * (1 - opacity));

test("the contrast is that of the guidelines: black on white 21 to 1, and #777777 on white a little too little", () => {
  expect(contrast(colourOf("#000000"), colourOf("#FFFFFF"))).toBeCloseTo(21, 6);
  // 4.48 and 4.54, from memory: the greys either side of the criterion.
  expect(contrast(colourOf("#777777"), colourOf("#FFFFFF"))).toBeCloseTo(4.48, 2);
  expect(contrast(colourOf("#767676"), colourOf("#FFFFFF"))).toBeCloseTo(4.54, 2);
});

const samples = ["courtyard-bog", "spilling-wall", "behind-the-shed", "pump-pit", "two-steps"] as const;
const nodes: readonly SceneNode[] = samples.flatMap((sample) =>
  [1, 4].flatMap((zoom) =>
    sceneOf(readDrawing(`../../samples/${sample}.json`), paperOfWindow(windows.wide), { zoom }).nodes.filter(
      (node) => node.layer !== "frame",
    ),
  ),
);

/** The inks of words on the section; all others stand on paper. */
const anywhere: readonly Role[] = ["ink", "soft", "part"];
const onPaper: readonly Role[] = [...anywhere, "held", "drains", "waterline", "focus"];

test("words on the section are of the inks that are read on water, earth and stone, and are not thinned", () => {
  const words = nodes.filter((node) => node.shape === "text");

  expect(words.length).toBeGreaterThan(100);
  expect(words.filter((node) => !anywhere.includes(node.fill))).toEqual([]);
  expect(words.filter((node) => (node.opacity ?? 1) < 1)).toEqual([]);
});

/** As the scene lays them: water on paper, and on earth where two holes overlap; stones in water. */
function groundsOf(palette: Palette): readonly (readonly [string, Colour])[] {
  const opacities = (fill: Role, key: RegExp): readonly number[] => {
    const found = nodes.filter((node) => "fill" in node && node.fill === fill && key.test(node.key));
    return [...new Set(found.map((node) => node.opacity ?? 1))];
  };
  const role = (name: Role): Colour => colourOf(palette[name]);
  const dry: readonly (readonly [string, Colour])[] = [
    ["sheet", role("sheet")],
    ["desk", role("desk")],
    ["earth", role("ground")],
  ];
  const laid = (
    below: readonly (readonly [string, Colour])[],
    fill: Role,
    word: string,
    key: RegExp,
  ): readonly (readonly [string, Colour])[] => {
    const found = opacities(fill, key);
    expect(found, word).not.toEqual([]);
    return below.flatMap(([under, colour]) =>
      found.map((opacity) => [`${word} on ${under}`, over(role(fill), opacity, colour)] as const),
    );
  };
  const wet = laid(dry, "water", "water", / water$/);
  const beds = laid([...dry, ...wet], "stone", "bed", / bed \d+$/);
  const stones = laid(beds, "stone", "stones", / stones \d+$/);
  return [...dry, ...wet, ...beds, ...stones];
}

test.each(Object.entries(palettes))("every word of the %s sheet is read on all that it can lie on", (_, palette) => {
  const tooFaint = groundsOf(palette).flatMap(([ground, colour]) =>
    (ground === "sheet" ? onPaper : anywhere)
      .map((ink) => [ink, ground, contrast(colourOf(palette[ink]), colour)] as const)
      .filter(([, , ratio]) => ratio < 4.5),
  );

  expect(tooFaint).toEqual([]);
});

test.each([
  ["paper", ":root"],
  ["night", ':root[data-theme="night"]'],
] as const)("slips and words of the page have the colours of the %s sheet", (name, selector) => {
  const css = readFileSync("editor/sheet.css", "utf8");
  const rule = css.slice(css.indexOf(`${selector} {`)).split("}")[0] ?? "";
  const declared = [...rule.matchAll(/--(\w+): (#[0-9a-f]{6});/g)].map(([, role, hex]) => [role, hex?.toUpperCase()]);

  expect(declared.length).toBeGreaterThanOrEqual(10);
  expect(Object.fromEntries(declared)).toEqual(
    Object.fromEntries(declared.map(([role]) => [role, palettes[name][role as Role]])),
  );
});
