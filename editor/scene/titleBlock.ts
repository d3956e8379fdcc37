/** The title block in the lower right corner (after the habits of ISO 7200): the verdict first, in words, in colour
 * and in shape, why, the figures that decide, then what drawing this is. */

import type { FaultResult } from "../../hydraulics/index.ts";
import { scaleOf } from "../sheet/transform.ts";
import {
  formatFlow,
  formatLength,
  formatMoney,
  formatNumber,
  formatRate,
  formatTime,
  formatVolume,
  levelUnit,
  noFigure,
} from "../sheet/units.ts";
import type { Drawing } from "./drawing.ts";
import { box, stroke, words } from "./ink.ts";
import { letters } from "./letters.ts";
import type { SceneNode } from "./node.ts";
import type { Mm } from "./obstacles.ts";
import { cutText, plainText, wrapText } from "./plainText.ts";
import { textWidth } from "./textWidth.ts";
import { type SheetVerdict, verdictOf } from "./verdict.ts";

const footHeight = 14;
const figuresHeight = 16.5;
const barWidth = 2.4;
const pad = 5.6;

export function drawTitleBlock(drawing: Drawing): readonly SceneNode[] {
  const { title } = drawing.layout;
  const foot = title.y + title.height - footHeight;
  const figures = foot - figuresHeight;
  const verdict = verdictOf(drawing);
  return [
    box("sheet title", title, { pen: "outline", stroke: "ink", fill: "sheet" }),
    ...verdictBar(verdict, title),
    ...verdictWords(verdict, title, figures),
    stroke(
      "sheet title figures line",
      [
        [title.x + barWidth, figures],
        [title.x + title.width, figures],
      ],
      "part",
      "ink",
    ),
    ...figureColumns(drawing, figures),
    stroke(
      "sheet title foot line",
      [
        [title.x + barWidth, foot],
        [title.x + title.width, foot],
      ],
      "part",
      "ink",
    ),
    ...footWords(drawing, foot),
  ];
}

type Title = Drawing["layout"]["title"];

/** Colour is never alone: the bar's shape says the same. */
function verdictBar({ role, bar }: SheetVerdict, { x, y, height }: Title): readonly SceneNode[] {
  const bars: Readonly<Record<SheetVerdict["bar"], readonly (readonly Mm[])[]>> = {
    none: [],
    full: [
      [
        [x, y],
        [x + barWidth, y],
        [x + barWidth, y + height],
        [x, y + height],
      ],
    ],
    // Two leaves and the pin between them.
    hinge: [
      [
        [x, y],
        [x + barWidth, y],
        [x + barWidth, y + height * 0.44],
        [x, y + height * 0.44],
      ],
      [
        [x, y + height * 0.56],
        [x + barWidth, y + height * 0.56],
        [x + barWidth, y + height],
        [x, y + height],
      ],
    ],
    // Wide at the top, run out to a thread.
    runsOut: [
      [
        [x, y],
        [x + barWidth, y],
        [x + barWidth, y + height * 0.3],
        [x + barWidth * 0.42, y + height * 0.72],
        [x + barWidth * 0.3, y + height],
        [x, y + height],
      ],
    ],
  };
  const nodes = bars[bar].map((points, i) =>
    stroke(`sheet verdict bar ${i}`, points, "hair", "none", { closed: true, fill: role }),
  );
  if (bar !== "hinge") return nodes;
  return [
    ...nodes,
    {
      key: "sheet verdict pin",
      part: null,
      space: "paper",
      layer: "frame",
      shape: "circle",
      at: [x + barWidth / 2, y + height / 2],
      radius: 1.1,
      stroke: role,
      fill: "sheet",
      pen: "part",
    },
  ];
}

function verdictWords(
  { words: text, reason, role }: SheetVerdict,
  { x, y, width }: Title,
  floor: number,
): readonly SceneNode[] {
  const left = x + pad + 1;
  const room = width - pad - 5;
  const [head, tail] = text.split(/, (?=by )/);
  const nodes: SceneNode[] = [];
  const size = letters.figure;
  const whole = tail === undefined ? (head as string) : `${head},`;
  nodes.push(
    words("sheet verdict", [left, y + 7.2], cutText(whole, room, { size, weight: 600 }), {
      size,
      weight: 600,
      fill: role,
    }),
  );
  if (tail !== undefined) {
    // "Holds its water," and how: both large where there is room on the line.
    const used = textWidth(whole, size, 600) + 1.4;
    nodes.push(
      words(
        "sheet verdict how",
        [left + used, y + 7.2],
        cutText(tail, room - used, { size: letters.name + 0.6, weight: 500 }),
        { size: letters.name + 0.6, weight: 500, fill: role },
      ),
    );
  }
  const lines = Math.max(1, Math.floor((floor - y - 9.4) / 3.9));
  evenly(reason, room, lines).forEach((line, i) => {
    nodes.push(words(`sheet reason ${i}`, [left, y + 12 + i * 3.9], line, { size: letters.small, fill: "soft" }));
  });
  return nodes;
}

/** In as few lines as it takes, none of them a word left over. */
function evenly(text: string, room: number, most: number): readonly string[] {
  const style = { size: letters.small, weight: 400 } as const;
  const full = wrapText(text, room, style, most);
  const left = textWidth(full.at(-1) ?? "", style.size, style.weight);
  if (full.length < 2 || left > room / 4) return full;
  for (let narrower = room * 0.96; narrower > room * 0.6; narrower -= room * 0.04) {
    const lines = wrapText(text, narrower, style, most);
    if (lines.length !== full.length || lines.some((line, i) => line.endsWith("…") !== full[i]?.endsWith("…"))) break;
    if (textWidth(lines.at(-1) as string, style.size, style.weight) > room / 4) return lines;
  }
  return full;
}

interface Figure {
  readonly above: string;
  readonly figure: string;
  readonly under: string;
  readonly alarm?: boolean;
}

function figureColumns(drawing: Drawing, top: number): readonly SceneNode[] {
  const { title } = drawing.layout;
  const figures = drawing.fault
    ? faultFigures(drawing, drawing.fault)
    : [delivered(drawing), carries(drawing), yearly(drawing)];
  const left = title.x + barWidth;
  const column = (title.width - barWidth) / figures.length;
  return figures.flatMap((figure, i): readonly SceneNode[] => {
    const x = left + column * i + (i === 0 ? pad - barWidth + 1 : 3);
    const room = column - (i === 0 ? pad : 4);
    const key = `sheet figure ${i}`;
    const nodes = [
      words(`${key} above`, [x, top + 4.2], figure.above, { size: letters.small, fill: "soft" }),
      words(key, [x, top + 9.8], cutText(figure.figure, room, { size: letters.figure - 0.4, weight: 600 }), {
        size: letters.figure - 0.4,
        weight: 600,
        fill: figure.alarm ? "drains" : "ink",
      }),
      words(`${key} under`, [x, top + 14], cutText(figure.under, room, { size: letters.small, weight: 400 }), {
        size: letters.small,
        fill: "soft",
      }),
    ];
    if (i > 0)
      nodes.push(
        stroke(
          `${key} line`,
          [
            [left + column * i, top],
            [left + column * i, top + figuresHeight],
          ],
          "hair",
          "hair",
        ),
      );
    return nodes;
  });
}

/** What decides in a fault: the water that stays for the fish, what is gone, and the pump. */
function faultFigures({ system, played }: Drawing, fault: FaultResult): readonly Figure[] {
  const { pondShareLeft, pondDepthLeft, lostToGround, timeToPumpDry, pumpsStop } = fault;
  const percent = Math.round(100 * pondShareLeft);
  return [
    {
      above: "left in the pond",
      figure: `${percent} %`,
      under: `${formatLength(pondDepthLeft, system)} deep`,
      alarm: fault.outcome === "fish at risk",
    },
    {
      above: "lost to the ground",
      figure: formatVolume(lostToGround, system),
      under: `in ${formatTime(fault.duration)}`,
      alarm: fault.outcome === "water lost",
    },
    pumpsStop
      ? { above: "pump", figure: "stopped", under: `after ${played?.since ?? "the fault came"}` }
      : {
          above: "pump runs dry",
          figure: timeToPumpDry === null ? "never" : formatTime(timeToPumpDry),
          under: timeToPumpDry === null ? "its intake stays wet" : "after the fault came",
        },
  ];
}

const unknown = (above: string, under: string): Figure => ({ above, figure: noFigure, under });

function delivered({ running, system, parts }: Drawing): Figure {
  if (!parts.some((part) => part.kind === "pump")) return unknown("delivered", "no pump drawn");
  if (!running) return unknown("delivered", "no answer");
  const pumps = [...running.pumps.values()];
  const flow = pumps.reduce((sum, pump) => sum + Math.max(pump.flow, 0), 0);
  const greatest = pumps.reduce(
    (sum, pump) => sum + (pump.shareOfGreatest ? pump.flow / pump.shareOfGreatest : Number.NaN),
    0,
  );
  const share =
    Number.isFinite(greatest) && greatest > 0
      ? `${Math.round((100 * flow) / greatest)} % of the box${pumps.length > 1 ? "es" : ""}`
      : pumps.length > 1
        ? `by ${pumps.length} pumps`
        : "of the pump";
  return { above: "delivered", figure: formatFlow(flow, system), under: share };
}

/** The least margin of any vessel that gets water. */
function carries({ running, system, site, parts }: Drawing): Figure {
  if (!parts.some((part) => part.kind === "vessel")) return unknown("return carries", "no vessel drawn");
  if (!running) return unknown("return carries", "no answer");
  const margins = [...running.vessels.values()].flatMap((vessel) =>
    vessel.returnMargin === null ? [] : [vessel.returnMargin],
  );
  if (margins.length === 0) return unknown("return carries", "nothing to carry");
  const least = Math.min(...margins);
  const over = [...running.vessels.values()].some((vessel) => vessel.overtops);
  return {
    above: "return carries",
    figure: `${formatNumber(least, 2, 2)} ×`,
    under: over ? "the vessel overtops" : `with ${formatLength(site.freeboard, system)} to spare`,
    alarm: over || least < 1,
  };
}

function yearly({ running, site, parts }: Drawing): Figure {
  if (!parts.some((part) => part.kind === "pump")) return unknown("per year", "no pump drawn");
  if (!running) return unknown("per year", "no answer");
  const costs = [...running.pumps.values()].map((pump) => pump.yearlyCost);
  const known = costs.filter((cost) => cost !== null);
  if (known.length === 0) return unknown("per year", "watts not given");
  const rate = `at ${[plainText(site.currency), toTheCent(formatRate(site.tariff))].filter(Boolean).join(" ")} per kWh`;
  return {
    above: known.length < costs.length ? "per year, in part" : "per year",
    figure: formatMoney(
      known.reduce((sum, cost) => sum + cost, 0),
      plainText(site.currency),
    ),
    under: rate,
  };
}

/** `0.30`, as money is written; more places where the tariff has them. */
const toTheCent = (rate: string): string => (/\.\d$/.test(rate) ? `${rate}0` : rate);

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
  const scale = scaleText ?? `about 1:${formatNumber(scaleOf(drawing.transform), 2, 0)}`;
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
