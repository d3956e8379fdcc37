/** How the sheet is handed out: chosen on its slip, used by saving, printing and copying alike, for as long as the page
 * is open. */
import { useSyncExternalStore } from "react";
import type { PaletteName } from "../scene/palette.ts";
import type { PaperName } from "../svg/sheetPaper.ts";

export interface Choices {
  /** null: A4, or Letter where the sheet is in US units */
  readonly paper: PaperName | null;
  /** the denominator; null: the largest usual scale that fits */
  readonly scale: number | null;
  readonly show: "sheet" | "sequence";
  /** s after the power failed, null the moment before; null as a whole: the moments that tell most */
  readonly moments: readonly (number | null)[] | null;
  readonly colours: Exclude<PaletteName, "night">;
  /** whether the user's prices stand beside what to buy */
  readonly prices: "printed" | "left out";
}

let choices: Choices = { paper: null, scale: null, show: "sheet", moments: null, colours: "print", prices: "printed" };
const listeners = new Set<() => void>();

export const chosenNow = (): Choices => choices;

export function chooseHandOut(change: Partial<Choices>): void {
  choices = { ...choices, ...change };
  for (const listener of listeners) listener();
}

const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

export const useChoices = (): Choices => useSyncExternalStore(subscribe, chosenNow);
