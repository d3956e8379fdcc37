/** A rule: what a person should know about one aspect of a drawing. It reads, and never solves. */
import type { Section } from "../document/section.ts";
import type { PowerCut } from "../powerCut/powerCut.ts";
import type { Starts } from "../powerCut/starts.ts";
import type { Running } from "../solver/running.ts";
import type { Steady } from "../solver/steady.ts";
import type { Finding } from "./finding.ts";

/** What a rule looks at. */
export interface Looked {
  readonly section: Section;
  readonly running: Running;
  readonly state: Steady;
  readonly powerCut: PowerCut | null;
  /** null or absent where they were not asked for: then nothing is said of them */
  readonly starts?: Starts | null;
}

export type Rule = (looked: Looked) => readonly Finding[];

/** A rule in the table, with every code that it can give. */
export interface Entry {
  readonly codes: readonly string[];
  readonly rule: Rule;
}
