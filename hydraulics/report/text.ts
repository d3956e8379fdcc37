/** The report as a builder reads it: the verdict, why, what to see to, the figures, and what to take care of. */
import type { PartId, Section } from "../document/section.ts";
import type { Finding, Severity } from "../findings/finding.ts";
import type { CutEvent, CutVessel, PowerCut } from "../powerCut/powerCut.ts";
import type { Starts } from "../powerCut/starts.ts";
import type { StartUp } from "../powerCut/startUp.ts";
import { started } from "../powerCut/words.ts";
import type { Assessment } from "./assessment.ts";
import { cautions } from "./cautions.ts";
import { columns } from "./columns.ts";
import { formatTime, type UnitSystem } from "./formats.ts";
import { nameOf } from "./nameOf.ts";
import { levelsSentence, type Of, onlyStands, reportOf } from "./of.ts";
import { plain } from "./plain.ts";
import { shown } from "./shown.ts";
import { cutTables, faultTable, runningTables, startTable, type Table } from "./tables.ts";
import { type Verdict, verdictOf } from "./verdict.ts";
import { worstFirst } from "./worstFirst.ts";
import { wrap } from "./wrap.ts";

export function reportText(section: Section, assessment: Assessment, { units }: { units: UnitSystem }): string {
  const { running, powerCut, starts, findings, faults } = assessment;
  const of = reportOf(section, units);
  const verdict = verdictOf(section, assessment);
  const blocks = [
    [plain(section.title) || "Untitled drawing"],
    verdictLines(of, verdict, powerCut),
    findingLines(of, findings),
    ...(running.converged ? runningTables(of, running, powerCut).map(tableLines) : []),
    ...(running.converged && powerCut && !powerCut.failedAt ? cutLines(of, powerCut) : []),
    ...(starts ? startLines(of, starts) : []),
    ...(faults.length > 0 ? [tableLines(faultTable(of, faults))] : []),
    ["Take care", ...cautions.flatMap((each) => wrap(each, { first: "  ", hang: 2 }))],
  ];
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join("\n"))
    .join("\n\n")}\n`;
}

function verdictLines(of: Of, verdict: Verdict, cut: PowerCut | null): readonly string[] {
  const { section, units, says } = of;
  const names = [...new Set(verdict.parts.map((id) => nameOf(section, id)))].join(", ");
  const reasons =
    cut && verdict.word !== "no answer"
      ? [...cut.vessels].flatMap(([id, vessel]) =>
          reasonLines(started(nameOf(section, id)), says(reasonOf(of, id, vessel))),
        )
      : [];
  return [
    ...wrap(verdictSentence(verdict, names), { hang: 2 }),
    ...reasons,
    ...(reasons.length > 0 ? [`  ${levelsSentence(units)}`] : []),
  ];
}

export function verdictSentence({ word, parts }: Verdict, names: string): string {
  switch (word) {
    case "no answer":
      return `NO ANSWER: the calculation did not settle${names === "" ? "" : `; concerned: ${names}`}. No figure can be given.`;
    case "drains":
      return `DRAINS: when the power fails, ${names} ${parts.length === 1 ? "loses its" : "lose their"} water.`;
    case "fails":
      return `FAILS: every vessel keeps its water when the power fails, but something else is wrong${names === "" ? "" : ` at ${names}`}; see below.`;
    case "held by a moving part":
      return `HELD BY A MOVING PART: when the power fails, only a check valve keeps the water in ${names}.`;
    case "held":
      return parts.length === 0
        ? "NOTHING FAILS. There is no vessel whose water could run out."
        : "HELD: when the power fails, every vessel keeps its water by its geometry.";
    case "not joined":
      return `NOT JOINED: nothing leads to ${names} or from ${parts.length === 1 ? "it" : "them"}, so there is nothing to judge yet.`;
    default:
      return word satisfies never;
  }
}

/** Why a vessel holds or drains. */
export const reasonOf = (of: Of, id: PartId, vessel: CutVessel): string =>
  onlyStands(of, id, vessel) ? "Nothing leads to it or from it: its water only stands." : vessel.reason;

const reasonLines = (name: string, reason: string): readonly string[] =>
  reason === "" ? [] : wrap(`${name}: ${reason}`, { first: "  ", hang: 4 });

const severityWords: Readonly<Record<Severity, string>> = {
  failure: "Fails         ",
  warning: "Look at this  ",
  advice: "Advice        ",
};

function findingLines({ says }: Of, findings: readonly Finding[]): readonly string[] {
  if (findings.length === 0) return ["Nothing to look at."];
  return [
    "What to look at",
    ...worstFirst(findings).flatMap((finding) => [
      ...wrap(says(finding.text), { first: `  ${severityWords[finding.severity]}`, hang: 16 }),
      ...wrap(says(finding.remedy), { first: "                → ", hang: 18 }),
    ]),
  ];
}

function tableLines({ title, heads, rows }: Table): readonly string[] {
  return [title, ...columns(heads, rows).map((line) => `  ${line}`)];
}

const mostEvents = 40;

function cutLines(of: Of, cut: PowerCut): readonly (readonly string[])[] {
  const end = cut.settled
    ? `At rest after ${formatTime(cut.duration)}.`
    : `Still moving after ${formatTime(cut.duration)}, where the simulation ends.`;
  const lost = cut.lostToGround > 0 ? ` ${shown("volume", cut.lostToGround, of.units)} are lost to the ground.` : "";
  const events = cut.events.slice(0, mostEvents).flatMap((event) => eventLines(of, event));
  const more = cut.events.length - mostEvents;
  return [
    ...cutTables(of, cut).map(tableLines),
    ["The power cut, step by step", ...events, ...(more > 0 ? [`  … and ${more} more`] : []), `  ${end}${lost}`],
  ];
}

/** How far the ponds fall, whether a pump is left dry, when the outlets run: from empty, and after the cut. */
function startLines(of: Of, { startUp, restart }: Starts): readonly (readonly string[])[] {
  const block = (title: string, start: StartUp): readonly string[] => [
    ...tableLines(startTable(of, title, start)),
    ...wrap(plain(startSentence(of.section, start)), { first: "  ", hang: 2 }),
  ];
  return [
    block("First start, every vessel empty", startUp),
    ...(restart ? [block("Start after the power cut", restart)] : []),
  ];
}

export function startSentence(section: Section, { pumpsDry, duration, settled, failedAt }: StartUp): string {
  if (failedAt) {
    const at = failedAt.map((id) => nameOf(section, id)).join(", ");
    return `The simulation did not converge at ${at} and was not followed further than ${formatTime(duration)}.`;
  }
  const dry = [...pumpsDry].map(([id, time]) => `${started(nameOf(section, id))} runs dry after ${formatTime(time)}.`);
  const pumps = dry.length > 0 ? dry.join(" ") : "No pump is left dry.";
  return `${pumps} ${settled ? "All levels are at rest" : "Still moving"} after ${formatTime(duration)}.`;
}

function eventLines({ says }: Of, { time, text }: CutEvent): readonly string[] {
  const when = formatTime(time).padStart(11);
  return wrap(says(text), { first: `${when}  `, hang: 13 });
}
