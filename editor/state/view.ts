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

export interface View {
  readonly selection: ReadonlySet<PartId>;
  readonly units: UnitSystem;
  readonly theme: Theme;
  /** null: the section as it was when `fitted` last counted on, as large as the sheet takes it */
  readonly camera: Camera | null;
  readonly fitted: number;
  readonly tool: Tool | null;
  /** s after the power failed; null while the running state is shown */
  readonly moment: number | null;
  readonly playing: boolean;
  /** a sheet laid over the drawing: the keys, the findings, the table of parts, the steps, the drawing's own fields */
  readonly slip: "keys" | "findings" | "table" | "steps" | "drawing" | "faults" | null;
}

export const firstView: View = {
  selection: new Set(),
  units: "metric",
  theme: "paper",
  camera: null,
  fitted: 0,
  tool: null,
  moment: null,
  playing: false,
  slip: null,
};

/** Parts that are gone can not stay chosen. */
export function keepSelection(view: View, section: Section): View {
  const kept = [...view.selection].filter((id) => section.parts.has(id));
  return kept.length === view.selection.size ? view : { ...view, selection: new Set(kept) };
}

/** The whole section on the sheet. Later edits do not move the sheet under the hand: only this does. */
export const fitSheet = (view: View): View => ({ ...view, camera: null, fitted: view.fitted + 1 });

export const choose = (view: View, ids: Iterable<PartId>): View => ({ ...view, selection: new Set(ids) });

export function toggle(view: View, id: PartId): View {
  const selection = new Set(view.selection);
  if (!selection.delete(id)) selection.add(id);
  return { ...view, selection };
}
