/** The findings of a drawing, worst first: a table of rules, each one file. */
import type { Section } from "../document/section.ts";
import type { PowerCut } from "../powerCut/powerCut.ts";
import type { Running } from "../solver/running.ts";
import type { Steady } from "../solver/steady.ts";
import type { Finding, Severity } from "./finding.ts";

/** What a rule looks at. */
export interface Looked {
  readonly section: Section;
  readonly running: Running;
  readonly state: Steady;
  readonly powerCut: PowerCut | null;
}

export type Rule = (looked: Looked) => readonly Finding[];

const rules: readonly Rule[] = [];
const weight: Record<Severity, number> = { failure: 0, warning: 1, advice: 2 };

export function findingsOf(looked: Looked): readonly Finding[] {
  return rules.flatMap((rule) => [...rule(looked)]).sort((a, b) => weight[a.severity] - weight[b.severity]);
}

