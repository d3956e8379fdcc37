/** What every part's drawing asks: levels and flows at the moment shown, names, places on the paper. */
import type {
  Body,
  FaultResult,
  Finding,
  Part,
  PartId,
  Point,
  PowerCut,
  Section,
  Site,
} from "../../hydraulics/index.ts";
import { siteOf } from "../../hydraulics/index.ts";
import { idInWords } from "../sheet/partName.ts";
import { paperOf, type SheetTransform } from "../sheet/transform.ts";
import type { UnitSystem } from "../sheet/units.ts";
import type { SceneInput } from "./build.ts";
import { inFault } from "./inFault.ts";
import { type SheetLayout, sheetLayout } from "./layout.ts";
import { plainText } from "./plainText.ts";
import { cutPlayed, type PlayedRun } from "./played.ts";
import { type SeenRunning, seenRunning } from "./seen.ts";

export interface Drawing {
  /** as it stands at the moment shown: in a fault with the parts that the fault changes */
  readonly section: Section;
  readonly site: Required<Site>;
  /** in the file's order */
  readonly parts: readonly Part[];
  /** null where it is not solved or did not converge */
  readonly running: SeenRunning | null;
  readonly powerCut: PowerCut | null;
  readonly findings: readonly Finding[];
  /** what the strip shows: another run than the power cut where one is played */
  readonly played: PlayedRun | null;
  /** the fault whose moment is shown */
  readonly fault: FaultResult | null;
  readonly system: UnitSystem;
  readonly moment: number | null;
  readonly transform: SheetTransform;
  readonly layout: SheetLayout;
  readonly input: SceneInput;
}

export function drawingOf(input: SceneInput): Drawing {
  const { running, powerCut, findings, view } = input;
  const played = input.played === undefined ? powerCut && cutPlayed(powerCut) : input.played;
  const moment = played && played.history.times.length > 0 ? view.moment : null;
  const fault = moment === null ? null : (played?.fault ?? null);
  const section = fault ? inFault(input.section, fault) : input.section;
  return {
    section,
    site: siteOf(section),
    parts: [...section.parts.values()].sort((a, b) => a.rank - b.rank),
    running: running?.converged ? seenRunning(running) : null,
    powerCut,
    findings,
    played,
    fault,
    system: view.system,
    moment,
    transform: view.transform,
    layout: sheetLayout(view.paper, view),
    input,
  };
}

export const paperAt = (drawing: Drawing, place: Point): readonly [number, number] => paperOf(drawing.transform, place);
export const mmOf = (drawing: Drawing, metres: number): number => metres * drawing.transform.mmPerMetre;
export const metresOf = (drawing: Drawing, mm: number): number => mm / drawing.transform.mmPerMetre;

/** The water level shown; null where nobody knows (a vessel that is not solved). */
export function waterLevel(drawing: Drawing, body: Body): number | null {
  const { moment, played, running } = drawing;
  if (moment !== null && played) {
    const levels = played.history.levels.get(body.id);
    if (levels) return atTime(played.history.times, levels, moment);
  }
  if (body.kind === "pond") return running?.ponds.get(body.id)?.level ?? body.waterLevel;
  return running?.vessels.get(body.id)?.level ?? null;
}

/** m³/s from the `from` end, or over a sill; null where it is not solved. */
export function flowOf(drawing: Drawing, id: PartId): number | null {
  const { moment, played, running } = drawing;
  if (moment !== null && played) {
    const flows = played.history.flows.get(id);
    return flows ? atTime(played.history.times, flows, moment) : 0;
  }
  return running?.pipes.get(id)?.flow ?? running?.spillways.get(id)?.flow ?? null;
}

/** Linear between the moments that were kept; held at both ends. */
export function atTime(times: readonly number[], values: readonly number[], time: number): number {
  let low = 0;
  let high = times.length - 1;
  if (high < 0) return 0;
  if (time <= (times[0] as number)) return values[0] as number;
  if (time >= (times[high] as number)) return values[high] as number;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((times[middle] as number) <= time) low = middle;
    else high = middle;
  }
  const from = times[low] as number;
  const to = times[high] as number;
  const share = to > from ? (time - from) / (to - from) : 1;
  return (values[low] as number) * (1 - share) + (values[high] as number) * share;
}

/** Letters that a name may have on the sheet. */
const longestName = 32;

/** As it is called everywhere, cut where it is long. */
export function nameOf(part: Part): string {
  const letters = [...(plainText(part.label ?? "") || idInWords(part.id))];
  if (letters.length <= longestName) return letters.join("");
  const cut = letters.slice(0, longestName - 1).join("");
  return `${cut.trimEnd()}…`;
}

export const nameById = (section: Section, id: PartId): string => {
  const part = section.parts.get(id);
  return part ? nameOf(part) : id;
};
