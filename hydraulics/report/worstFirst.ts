import type { Finding, Severity } from "../findings/finding.ts";

const weight: Readonly<Record<Severity, number>> = { failure: 0, warning: 1, advice: 2 };

/** Failures, then warnings, then advice; those of one severity in the order in which they came. */
export const worstFirst = (findings: readonly Finding[]): readonly Finding[] =>
  [...findings].sort((a, b) => weight[a.severity] - weight[b.severity]);
