/** The title block (ISO 7200 habits): verdict and reason first, then the figures that decide, then what sheet this is. */
import type { SceneNode, Role } from "./node.ts";
import type { Drawing } from "./drawing.ts";
import { formatFlow, formatLength, formatMoney, formatNumber, noFigure } from "../sheet/units.ts";
import { letters } from "./letters.ts";
import { cutText, plainText, wrapText } from "./plainText.ts";
import { textWidth } from "./textWidth.ts";
import { sheetVerdict } from "./verdict.ts";

/** mm */
const bar = 2.6;
const pad = 4;

export function drawTitle(drawing: Drawing): readonly SceneNode[] {
  const { title } = drawing.layout;
  const { section, running, powerCut, findings, system } = drawing;
  const verdict = sheetVerdict(section, running, powerCut, findings, system);
  const base = { part: null, space: "paper", layer: "frame" } as const;
  const { x, y, width, height } = title;
  const left = x + bar + pad;
  const inner = width - bar - 2 * pad;
  const tone: Role = verdict.tone;
  const nodes: SceneNode[] = [
    { ...base, key: "sheet title", shape: "line", points: [[x, y], [x + width, y], [x + width, y + height], [x, y + height]], closed: true, stroke: "ink", fill: "sheet", pen: "part", join: "miter" },
    ...edge(tone, x, y, height),
  ];
  const text = (key: string, at: readonly [number, number], words: string, size: number, weight: 400 | 500 | 600, fill: Role, anchor: "start" | "middle" | "end" = "start") =>
    nodes.push({ ...base, key: `sheet title ${key}`, shape: "text", at, text: words, anchor, size, weight, fill });
  const rule = (key: string, at: number) =>
    nodes.push({ ...base, key: `sheet title rule ${key}`, shape: "line", points: [[x, at], [x + width, at]], stroke: "ink", pen: "dimension" });

  // Verdict and reason.
  const words = cutText(verdict.words, inner, { size: letters.figure, weight: 600 });
  text("verdict", [left, y + 7.6], words, letters.figure, 600, tone);
  const by = cutText(verdict.by, inner - textWidth(words, letters.figure, 600) - 2, { size: letters.name, weight: 500 });
  if (verdict.by !== "") text("by", [left + textWidth(words, letters.figure, 600) + 1.4, y + 7.6], by, letters.name, 500, tone);
  wrapText(plainText(verdict.reason), inner, { size: letters.small, weight: 400 }, 3).forEach((line, i) => {
    text(`reason ${i}`, [left, y + 12.4 + i * 3.9], line, letters.small, 400, "soft");
  });
  rule("figures", y + 23.4);

  // The figures that decide.
  const columns = figures(drawing);
  const step = inner / columns.length;
  columns.forEach(({ name, figure, note }, i) => {
    const at = left + i * step;
    const room = step - 2;
    text(`figure name ${i}`, [at, y + 27.8], cutText(name, room, { size: letters.small, weight: 400 }), letters.small, 400, "soft");
    text(`figure ${i}`, [at, y + 33.6], cutText(figure, room, { size: letters.figure * 0.92, weight: 600 }), letters.figure * 0.92, 600, "ink");
    text(`figure note ${i}`, [at, y + 37.6], cutText(note, room, { size: letters.small, weight: 400 }), letters.small, 400, "soft");
    if (i > 0) nodes.push({ ...base, key: `sheet title column ${i}`, shape: "line", points: [[at - 2.4, y + 24.6], [at - 2.4, y + 39]], stroke: "hair", pen: "dimension" });
  });
  rule("sheet", y + 40.4);

  // What sheet this is.
  const looks = lookWords(drawing);
  const looksWidth = textWidth(looks.words, letters.note, 600);
  text("name", [left, y + 45.4], cutText(plainText(section.title) || "Untitled section", inner - looksWidth - 4, { size: letters.name, weight: 600 }), letters.name, 600, "ink");
  text("looks", [x + width - pad, y + 45.4], looks.words, letters.note, 600, looks.tone, "end");
  const units = system === "metric" ? "metres above datum" : "feet above datum";
  const scale = drawing.input.view.scaleText;
  const date = drawing.input.view.date;
  text("sheet", [left, y + 50.6], cutText(["section", scale, units, date].filter(Boolean).join(" · "), inner - 46, { size: letters.small, weight: 400 }), letters.small, 400, "soft");
  text("estimate", [x + width - pad, y + 50.6], "an estimate, not a licensed design", letters.small, 400, "soft", "end");
  return nodes;
}

/** The verdict's shape: a full bar (geometry), a bar with a hinge gap (moving part), a bar that runs out downward. */
function edge(tone: Role, x: number, y: number, height: number): readonly SceneNode[] {
  const base = { part: null, space: "paper", layer: "frame", shape: "line", closed: true, stroke: "none", pen: "hair" } as const;
  const box = (key: string, from: number, to: number): SceneNode => ({
    ...base, key: `sheet edge ${key}`, points: [[x, from], [x + bar, from], [x + bar, to], [x, to]], fill: tone,
  });
  const middle = y + height / 2;
  switch (tone) {
    case "held":
      return [box("whole", y, y + height)];
    case "part":
      return [
        box("upper", y, middle - 3),
        box("lower", middle + 3, y + height),
        { part: null, space: "paper", layer: "frame", key: "sheet edge hinge", shape: "circle", at: [x + bar / 2, middle], radius: 1.1, stroke: tone, fill: "sheet", pen: "part" },
      ];
    case "drains":
      return [
        { ...base, key: "sheet edge run", points: [[x, y], [x + bar, y], [x + bar, y + height * 0.45], [x + bar / 2, y + height * 0.62], [x, y + height * 0.45]], fill: tone },
        ...[0.7, 0.8, 0.9].map((share, i): SceneNode => ({
          part: null, space: "paper", layer: "frame", key: `sheet edge drop ${i}`, shape: "circle", at: [x + bar / 2, y + height * share], radius: 0.9 - i * 0.15, stroke: "none", fill: tone, pen: "hair",
        })),
      ];
    default:
      return [{ ...base, key: "sheet edge none", points: [[x, y], [x + bar, y], [x + bar, y + height], [x, y + height]], fill: "hair" }];
  }
}

interface Figure {
  readonly name: string;
  readonly figure: string;
  readonly note: string;
}

function figures({ running, site, system }: Drawing): readonly Figure[] {
  const none: Figure = { name: "delivered", figure: noFigure, note: "" };
  if (!running) return [none, { name: "return carries", figure: noFigure, note: "" }, { name: "per year", figure: noFigure, note: "" }];
  const pumps = [...running.pumps.values()];
  let flow = 0;
  let greatest = 0;
  let cost = 0;
  let costKnown = pumps.length > 0;
  for (const pump of pumps) {
    flow += Math.max(0, pump.flow);
    if (pump.shareOfGreatest) greatest += pump.flow / pump.shareOfGreatest;
    if (pump.yearlyCost === null) costKnown = pump.state === "off" && costKnown;
    else cost += pump.yearlyCost;
  }
  const margins = [...running.vessels.values()].flatMap((vessel) => (vessel.returnMargin === null ? [] : [vessel.returnMargin]));
  const margin = margins.length > 0 ? Math.min(...margins) : null;
  return [
    {
      name: pumps.length > 1 ? `delivered, ${pumps.length} pumps` : "delivered",
      figure: pumps.length > 0 ? formatFlow(flow, system) : noFigure,
      note: greatest > 0 ? `${Math.round((100 * flow) / greatest)} % of the box` : "",
    },
    {
      name: "return carries",
      figure: margin === null ? noFigure : `${formatNumber(margin, 2, 1)} ×`,
      note: margin === null ? "nothing to carry" : `with ${formatLength(site.freeboard, system)} to spare`,
    },
    {
      name: "per year",
      figure: costKnown ? formatMoney(cost, plainText(site.currency)) : noFigure,
      note: costKnown ? `at ${formatNumber(site.tariff, 3, 2)} per kWh` : "watts not given",
    },
  ];
}

function lookWords({ findings }: Drawing): { readonly words: string; readonly tone: Role } {
  const failures = findings.filter((finding) => finding.severity === "failure").length;
  const warnings = findings.filter((finding) => finding.severity === "warning").length;
  if (failures > 0) return { words: failures === 1 ? "1 failure to mend" : `${failures} failures to mend`, tone: "drains" };
  if (warnings > 0) return { words: `${warnings} to look at`, tone: "part" };
  return findings.length > 0 ? { words: `${findings.length} hints`, tone: "soft" } : { words: "nothing to look at", tone: "held" };
}
