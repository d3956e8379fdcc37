/** What a person looks at and how: never in the file, never in the history. */
import type { PartId, Section } from "../../hydraulics/index.ts";
import type { UnitSystem } from "../sheet/units.ts";

export type Theme = "paper" | "night";

export type Tool = "pond" | "vessel" | "pump" | "pipe" | "valve" | "checkValve" | "vent" | "spillway" | "note";

/** Where the section lies in the window: px = (x − x0)·scale from the left, px = (z0 − z)·scale from above. */
export interface Camera {
  readonly x0: number;
  readonly z0: number;
  /** px a metre */
  readonly scale: number;
}

/** What is played on the strip in the power cut's place: a start, or one fault of the survey. */
export type Played =
  | { readonly what: "startUp" | "restart" }
  | { readonly what: "fault"; readonly fault: string; readonly part: PartId | null };

/** Slips that say why, and what would change it. */
export type WhySlip = "rules" | "size" | "whatIf" | "compare" | "buy" | "duty";

export interface View {
  readonly selection: ReadonlySet<PartId>;
  /** the part whose stop has the focus of the keyboard */
  readonly stop: PartId | null;
  /** what was chosen part by part by keyboard. As long as it is what is chosen, to come to a stop chooses nothing: any
   * other choice is another set, and ends it. */
  readonly gathered: ReadonlySet<PartId> | null;
  readonly units: UnitSystem;
  readonly theme: Theme;
  /** null: the section as it was when `fitted` last counted on, as large as the sheet takes it */
  readonly camera: Camera | null;
  readonly fitted: number;
  readonly tool: Tool | null;
  /** s after the power failed; null while the running state is shown */
  readonly moment: number | null;
  readonly playing: boolean;
  /** null: the power cut */
  readonly played: Played | null;
  /** a sheet laid over the drawing: the keys, the findings, the table of parts, the steps, the drawing's own fields,
   * the drawings kept, the questions before a new one */
  readonly slip:
    | "keys"
    | "findings"
    | "table"
    | "steps"
    | "drawing"
    | "faults"
    | "drawings"
    | "begin"
    | "handOut"
    | "gallery"
    | WhySlip
    | null;
  /** the part that such a slip speaks of */
  readonly about: PartId | null;
  /** the hydraulic grade line drawn over the pipes */
  readonly gradeLine: boolean;
}

export const firstView: View = {
  selection: new Set(),
  stop: null,
  gathered: null,
  units: "metric",
  theme: "paper",
  camera: null,
  fitted: 0,
  tool: null,
  moment: null,
  playing: false,
  played: null,
  slip: null,
  about: null,
  gradeLine: false,
};

/** Parts that are gone can not stay chosen. */
export function keepSelection(view: View, section: Section): View {
  const kept = [...view.selection].filter((id) => section.parts.has(id));
  const known = kept.length === view.selection.size ? view : { ...view, selection: new Set(kept) };
  return known.stop !== null && !section.parts.has(known.stop) ? { ...known, stop: null } : known;
}

/** Back to the running state, with the power cut on the strip. */
export const backToRunning = (view: View): View => ({ ...view, moment: null, playing: false, played: null });

/** From its beginning; null is the power cut. */
export const play = (view: View, played: Played | null, playing: boolean): View => ({
  ...view,
  played,
  moment: 0,
  playing,
});

/** The whole section on the sheet. Later edits do not move the sheet under the hand: only this does. */
export const fitSheet = (view: View): View => ({ ...view, camera: null, fitted: view.fitted + 1 });

export function toggle(view: View, id: PartId): View {
  const selection = new Set(view.selection);
  if (!selection.delete(id)) selection.add(id);
  return { ...view, selection };
}

export const isGathering = ({ selection, gathered }: View): boolean => selection === gathered;

/** The keyboard comes to a part's stop, which chooses the part, unless parts are being gathered. */
export const comeToStop = (view: View, id: PartId): View => ({
  ...view,
  stop: id,
  selection: isGathering(view) ? view.selection : new Set([id]),
});

export const leaveStops = (view: View): View => (view.stop === null ? view : { ...view, stop: null });

/** Takes the part in or out of what is chosen, and keeps that while the keyboard goes on. The one part that was chosen by
 * coming to it is only kept: nobody wishes it out who wants more. */
export function gather(view: View, id: PartId): View {
  const isKept = !isGathering(view) && view.selection.size === 1 && view.selection.has(id);
  const { selection } = isKept ? { selection: new Set(view.selection) } : toggle(view, id);
  return { ...view, selection, gathered: selection.size > 0 ? selection : null };
}
