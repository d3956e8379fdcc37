/** The title block in the lower right corner (after the habits of ISO 7200): the verdict first, in words, in colour
 * and in shape, why, the figures that decide, then what drawing this is. */
import { scaleOf } from "../sheet/transform.ts";
import { formatNumber, levelUnit } from "../sheet/units.ts";
import type { Drawing } from "./drawing.ts";
import { box, stroke, words } from "./ink.ts";
import { letters } from "./letters.ts";
import type { SceneNode } from "./node.ts";
import { cutText, plainText } from "./plainText.ts";
import { textWidth } from "./textWidth.ts";
import { figureColumns, figuresHeight } from "./titleFigures.ts";
import { barWidth, pad, verdictBar, verdictHeight, verdictWords } from "./titleVerdict.ts";
import { verdictOf } from "./verdict.ts";

const footHeight = 14;

export function drawTitleBlock(drawing: Drawing): readonly SceneNode[] {
  const { title } = drawing.layout;
  const foot = title.y + title.height - footHeight;
  // A small window's has the verdict and what drawing this is, no more.
  const brief = title.height < verdictHeight + figuresHeight + footHeight;
  const figures = brief ? foot : foot - figuresHeight;
  const verdict = verdictOf(drawing);
  const line = (key: string, y: number): SceneNode =>
    stroke(
      key,
      [
        [title.x + barWidth, y],
        [title.x + title.width, y],
      ],
      "part",
      "ink",
    );
  return [
    box("sheet title", title, { pen: "outline", stroke: "ink", fill: "sheet" }),
    ...verdictBar(verdict, title),
    ...verdictWords(verdict, title, figures),
    ...(brief ? [] : [line("sheet title figures line", figures), ...figureColumns(drawing, figures)]),
    line("sheet title foot line", foot),
    ...footWords(drawing, foot),
  ];
}

function footWords(drawing: Drawing, top: number): readonly SceneNode[] {
  const { title } = drawing.layout;
  const left = title.x + pad + 1;
  const right = title.x + title.width - 3.4;
  const failures = drawing.findings.filter((finding) => finding.severity === "failure").length;
  const others = drawing.findings.length - failures;
  const count =
    failures > 0
      ? `${failures} ${failures === 1 ? "failure" : "failures"}${others > 0 ? `, ${others} to look at` : ""}`
      : others > 0
        ? `${others} to look at`
        : drawing.running && !drawing.input.following
          ? "nothing to look at"
          : "";
  const countWidth = textWidth(count, letters.note, 500);
  const { scaleText, date } = drawing.input.view;
  const scale = scaleText ?? `about ${ratioText(scaleOf(drawing.transform))}`;
  const facts = [
    scale,
    `levels in ${levelUnit(drawing.system) === "m" ? "metres" : "feet"}`,
    ...(date ? [plainText(date)] : []),
  ].join(" · ");
  const hedge = "an estimate, not a licensed design";
  const hedgeWidth = textWidth(hedge, letters.small, 400);
  // What kind of drawing it is can be seen; the date can not.
  const room = right - left - hedgeWidth - 3;
  const whole = `section · ${facts}`;
  const about = textWidth(whole, letters.small, 400) <= room ? whole : facts;
  return [
    words(
      "sheet name",
      [left, top + 5.4],
      cutText(plainText(drawing.section.title) || "Untitled", right - left - countWidth - 4, {
        size: letters.name,
        weight: 600,
      }),
      { size: letters.name, weight: 600 },
    ),
    words("sheet findings", [right, top + 5.4], count, {
      size: letters.note,
      weight: 500,
      fill: failures > 0 ? "drains" : others > 0 ? "part" : "soft",
      anchor: "end",
    }),
    words("sheet about", [left, top + 10.8], cutText(about, room, { size: letters.small, weight: 400 }), {
      size: letters.small,
      fill: "soft",
    }),
    words("sheet hedge", [right, top + 10.8], hedge, { size: letters.small, fill: "soft", anchor: "end" }),
  ];
}

/** Nearer than life the paper's length comes first. */
const ratioText = (scale: number): string =>
  scale < 1 ? `${formatNumber(1 / scale, 2, 1)}:1` : `1:${formatNumber(scale, 2, 0)}`;
