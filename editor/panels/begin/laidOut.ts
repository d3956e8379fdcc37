/** What goes to the worker that lays out a drawing, and what comes back. */
import type { Layout, LayoutAnswers, LayoutRefusal } from "../../../hydraulics/index.ts";

export interface LayoutQuestion {
  readonly run: number;
  readonly answers: LayoutAnswers;
}

export type Drawable = Layout & { readonly run: number; readonly ok: true };

export type LaidOut = Drawable | { readonly run: number; readonly ok: false; readonly refusal: LayoutRefusal };
