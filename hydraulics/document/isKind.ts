/** Kinds of parts that are asked for together. */
import type { Body, OnPipe, Part } from "./section.ts";

export type Device = Extract<Part, { readonly on: OnPipe }>;

/** A pond or a vessel. */
export const isBody = (part: Part | undefined): part is Body => part?.kind === "pond" || part?.kind === "vessel";

/** What sits on a pipe: a valve, a check valve or a vent. */
export const isDevice = (part: Part | undefined): part is Device =>
  part?.kind === "valve" || part?.kind === "checkValve" || part?.kind === "vent";
