/** Text of a document on its way to the sheet, and how wide it is there. */
import { describe, expect, test } from "vitest";
import { cutText, plainText, wrapText } from "../../editor/scene/plainText.ts";
import { textWidth } from "../../editor/scene/textWidth.ts";

const style = { size: 10, weight: 400 } as const;

describe("plain text", () => {
  test("control characters, line breaks and marks that turn the writing become one space", () => {
    expect(plainText(" a\u0000b\u001b[31m\nc\u202ed\u2066e\u200bf ")).toBe("a b [31m c d e f");
  });

  test("angle brackets stay letters", () => {
    expect(plainText("<script>alert(1)</script>")).toBe("<script>alert(1)</script>");
  });

  test("half of a pair is no letter", () => {
    expect(plainText("a\ud800b")).toBe("a b");
  });
});

describe("width", () => {
  test("advance widths are the font's own", () => {
    // hmtx of Barlow Semi Condensed Regular, units per em 1000: space 200, "1" 303, "0" 504
    expect(textWidth("1 0", 1000, 400)).toBe(303 + 200 + 504);
  });

  test("a letter that the face lacks counts as a full square, a combining mark as nothing", () => {
    expect(textWidth("池", 10, 400)).toBe(10);
    expect(textWidth("\u0301", 10, 400)).toBe(0);
  });

  test("cut text fits and ends in …", () => {
    const text = cutText("Keep the riser clear of leaves", 60, style);

    expect(text.endsWith("…")).toBe(true);
    expect(textWidth(text, style.size, style.weight)).toBeLessThanOrEqual(60);
  });

  test.each([
    ["Bog filter ends at +0.660, 0.065 m below its level", "Bog filter ends at +0.660,…"],
    ["the pump delivers 2,110 L/h in all", "the pump delivers…"],
  ])("no cut falls into a figure, or between it and its unit: %s", (text, cut) => {
    // Where the figure has begun, and where only its unit is missing.
    for (const letters of [cut.length, cut.length + 2, cut.length + 5])
      expect(cutText(text, textWidth(`${text.slice(0, letters)}…`, style.size, style.weight), style)).toBe(cut);
  });

  test("a cut of one long figure is all there is of it", () => {
    expect(cutText("1234567890", 30, style)).toMatch(/^1\d+…$/);
  });

  test("wrapped lines fit, keep every word, and are cut at the most lines", () => {
    const text = "Open the flush valve in spring and let it run until the water comes clear";

    const whole = wrapText(text, 80, style, 20);
    const short = wrapText(text, 80, style, 2);

    expect(whole.join(" ")).toBe(text);
    for (const line of [...whole, ...short]) expect(textWidth(line, style.size, style.weight)).toBeLessThanOrEqual(80);
    expect(short).toHaveLength(2);
    expect(short[1]?.endsWith("…")).toBe(true);
  });

  test("one endless word is cut, not run over", () => {
    const lines = wrapText("x".repeat(400), 50, style, 4);

    for (const line of lines) expect(textWidth(line, style.size, style.weight)).toBeLessThanOrEqual(50);
  });
});
