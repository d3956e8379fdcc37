/** The figures in the title block that decide: what is delivered, what the return carries, what a year costs; in a fault
 * what it comes to. */
import type { FaultResult } from "../../hydraulics/index.ts";
import {
  formatFlow,
  formatLength,
  formatMoney,
  formatNumber,
  formatRate,
  formatTime,
  formatVolume,
  noFigure,
} from "../sheet/units.ts";
import type { Drawing } from "./drawing.ts";
import { stroke, words } from "./ink.ts";
import { letters } from "./letters.ts";
import type { SceneNode } from "./node.ts";
import { cutText, plainText } from "./plainText.ts";
import { barWidth, pad } from "./titleVerdict.ts";

export const figuresHeight = 16.5;

interface Figure {
  readonly above: string;
  readonly figure: string;
  readonly under: string;
  readonly alarm?: boolean;
}

export function figureColumns(drawing: Drawing, top: number): readonly SceneNode[] {
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

/** m³/s that nobody reads */
const leak = 1e-7;

function delivered({ running, system, parts }: Drawing): Figure {
  if (!parts.some((part) => part.kind === "pump")) return unknown("delivered", "no pump drawn");
  if (!running) return unknown("delivered", "no answer");
  const all = [...running.pumps.values()];
  // What one pump gives and another passes back is not delivered.
  const flow = all.reduce((sum, pump) => sum + pump.flow, 0);
  const back = all.reduce((sum, pump) => sum + Math.max(-pump.flow, 0), 0);
  if (back > leak)
    return { above: "delivered", figure: formatFlow(flow, system), under: `${formatFlow(back, system)} runs back` };
  const pumps = all.filter(({ state }) => state !== "off");
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
  if (known.length === 0) {
    const given = parts.some((part) => part.kind === "pump" && part.watts !== undefined);
    return unknown("per year", given ? "no pump runs" : "watts not given");
  }
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
