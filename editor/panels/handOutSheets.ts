/** The sheets that are handed out: what lies on the desk, as it was chosen to be shown. */
import { assess, materialsList, type PowerCut } from "../../hydraulics/index.ts";
import { usualScales } from "../sheet/transform.ts";
import type { Desk } from "../state/desk.ts";
import type { Bought } from "../svg/groups/materials.ts";
import { before, hasMoments, type Moment, momentAt, tellingMoments } from "../svg/moments.ts";
import { largestSequenceScale, type SequenceOptions, sequenceSheet, sequenceSvg } from "../svg/sequence.ts";
import type { PaperName } from "../svg/sheetPaper.ts";
import { largestScale, type PaintedSheet, type SheetOptions, sheetSvg, sheetsOf } from "../svg/write.ts";
import type { Results } from "../worker/results.ts";
import type { Choices } from "./handOutChoices.ts";

export interface HandOut {
  readonly paper: PaperName;
  /** denominators to choose from, the largest scale first */
  readonly scales: readonly number[];
  /** the one that is drawn */
  readonly scale: number;
  /** what the power cut offers for a sequence; empty where nothing moves */
  readonly moments: readonly Moment[];
  /** those that are shown in one */
  readonly shown: readonly Moment[];
  /** whether something to buy has a price of the user's */
  readonly hasPrices: boolean;
  readonly sheets: readonly PaintedSheet[];
  /** the file, with the drawing inside */
  svg(): string;
}

/** @param bought the user's prices, and pipe in the lengths it is bought in */
export function handOutOf(desk: Desk, results: Results, choices: Choices, bought: Required<Bought>): HandOut {
  const { section, view } = desk.get();
  const result = results.get();
  // Pressed before the worker has answered, the figures are found here: a sheet never goes out without them.
  const solved = result?.section === section && result.depth !== "quick" ? result.assessment : null;
  const { running, powerCut, findings } = solved ?? assess(section, { quick: true });
  const paper = choices.paper ?? (view.units === "us" ? "Letter" : "A4");
  const options: SheetOptions = {
    section,
    running,
    powerCut,
    findings,
    system: view.units,
    paper,
    theme: choices.colours,
    date: today(),
    bought: choices.prices === "printed" ? bought : { stock: bought.stock },
  };
  const moments = momentsOf(powerCut);
  const shown = shownMoments(powerCut, choices.moments);
  const sequence: SequenceOptions | null =
    choices.show === "sequence" && shown.length > 0 ? { ...options, moments: shown } : null;
  const largest = sequence ? largestSequenceScale(sequence) : largestScale(options);
  const scales = [largest, ...usualScales.filter((scale) => scale > largest)].slice(0, 4);
  // A scale that was chosen for another paper or drawing counts only where it fits here.
  const scale = choices.scale !== null && choices.scale >= largest ? choices.scale : largest;
  const all = scales.includes(scale) ? scales : [...scales, scale];
  const hasPrices = materialsList(section, bought).some(({ key }) => bought.prices.has(key));
  const about = { paper, scales: all, scale, moments, shown, hasPrices };
  return sequence
    ? {
        ...about,
        sheets: [sequenceSheet({ ...sequence, scale })],
        svg: () => sequenceSvg({ ...sequence, scale }),
      }
    : {
        ...about,
        sheets: sheetsOf({ ...options, scale }),
        svg: () => sheetSvg({ ...options, scale }),
      };
}

/** Before, each moment at which something happens, at rest; no two at one time. */
function momentsOf(cut: PowerCut | null): readonly Moment[] {
  if (!hasMoments(cut)) return [];
  const telling = tellingMoments(cut);
  const times = new Set([...telling.map(({ time }) => time), ...cut.events.map(({ time }) => time)]);
  times.delete(null);
  const sorted = [...times].filter((time) => time !== null).sort((a, b) => a - b);
  const apart = sorted.filter((time, i) => i === 0 || time - (sorted[i - 1] as number) > 0.5);
  return [before, ...apart.map((time) => telling.find((each) => each.time === time) ?? momentAt(cut, time))];
}

function shownMoments(cut: PowerCut | null, chosen: Choices["moments"]): readonly Moment[] {
  if (!hasMoments(cut)) return [];
  if (chosen === null) return tellingMoments(cut);
  const offered = momentsOf(cut);
  const kept = offered.filter(({ time }) => chosen.includes(time));
  // Chosen for another drawing: its moments are not this one's.
  return kept.length > 0 ? kept : tellingMoments(cut);
}

/** The day where the drawing is made, as ISO 8601 writes it. */
function today(): string {
  const now = new Date();
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
