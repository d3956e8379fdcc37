/** What is wrong with the words and figures of a finding, as lines; none where it can be read. */
import type { Section } from "../../hydraulics/document/section.ts";
import type { Finding } from "../../hydraulics/findings/finding.ts";

const longest = 220;
const nonsense = /\b(NaN|undefined|null|Infinity|-?\d+e[+-]?\d+)\b|\[object|--| {2}/;

export function faultsIn(
  { code, severity, parts, text, remedy, figures }: Finding,
  section: Section,
): readonly string[] {
  const faults: string[] = [];
  if (!/^[a-z]+(-[a-z]+)*$/.test(code)) faults.push(`the code ${code} is not kebab-case`);
  if (!["failure", "warning", "advice"].includes(severity)) faults.push(`${severity} is no severity`);
  for (const part of parts) if (!section.parts.has(part)) faults.push(`${code} names ${part}, which is no part`);
  for (const said of [text, remedy]) {
    // A verdict explains itself in two or three sentences; every other finding in one.
    for (const sentence of said.split(/(?<=[a-z)\d]\.) (?=[A-Za-z])/)) {
      if (sentence.length > longest) faults.push(`${code}, ${sentence.length} characters: ${sentence}`);
      if (nonsense.test(sentence)) faults.push(`${code}: ${sentence}`);
      if (!sentence.endsWith(".")) faults.push(`${code} has no full stop: ${sentence}`);
    }
  }
  for (const [name, figure] of Object.entries(figures)) {
    if (!Number.isFinite(figure)) faults.push(`${code}: ${name} is ${figure}`);
  }
  return faults;
}
