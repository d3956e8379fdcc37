/** The report as a page of HTML to print, or to read in a browser: the same words and tables as the text. It holds all
 * it needs, runs nothing and reaches nowhere. */
import type { Section } from "../document/section.ts";
import type { Finding, Severity } from "../findings/finding.ts";
import type { PowerCut } from "../powerCut/powerCut.ts";
import type { StartUp } from "../powerCut/startUp.ts";
import { started } from "../powerCut/words.ts";
import type { Assessment } from "./assessment.ts";
import { cautions } from "./cautions.ts";
import { formatTime, type UnitSystem } from "./formats.ts";
import { nameOf } from "./nameOf.ts";
import { levelsSentence, type Of, reportOf } from "./of.ts";
import { plain } from "./plain.ts";
import { shown } from "./shown.ts";
import { cutTables, faultTable, runningTables, startTable, type Table } from "./tables.ts";
import { reasonOf, startSentence, verdictSentence } from "./text.ts";
import { unparted } from "./unparted.ts";
import { type Verdict, verdictOf } from "./verdict.ts";
import { worstFirst } from "./worstFirst.ts";

export function reportPage(section: Section, assessment: Assessment, { units }: { units: UnitSystem }): string {
  const { running, powerCut, starts, findings, faults } = assessment;
  const of = reportOf(section, units);
  const title = plain(section.title) || "Untitled drawing";
  const body = [
    element("h1", title),
    verdictPart(of, verdictOf(section, assessment), powerCut),
    findingPart(of, findings),
    ...(running.converged ? runningTables(of, running, powerCut).map(tablePart) : []),
    ...(running.converged && powerCut && !powerCut.failedAt ? cutPart(of, powerCut) : []),
    ...(starts ? [startPart(of, "First start, every vessel empty", starts.startUp)] : []),
    ...(starts?.restart ? [startPart(of, "Start after the power cut", starts.restart)] : []),
    ...(faults.length > 0 ? [tablePart(faultTable(of, faults))] : []),
    `<section>${element("h2", "Take care")}<ul>${cautions.map((each) => element("li", each)).join("")}</ul></section>`,
  ];
  return [
    "<!doctype html>",
    '<html lang="en">',
    "<head>",
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    element("title", title),
    `<style>${style}</style>`,
    "</head>",
    "<body>",
    ...body,
    "</body>",
    "</html>",
    "",
  ].join("\n");
}

const letters: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** What a drawing says reaches the page as words only. */
const escaped = (text: string): string =>
  unparted(plain(text)).replace(/[&<>"']/g, (letter) => letters[letter] as string);
const element = (name: string, text: string): string => `<${name}>${escaped(text)}</${name}>`;

function verdictPart(of: Of, verdict: Verdict, cut: PowerCut | null): string {
  const { section, units, says } = of;
  const names = [...new Set(verdict.parts.map((id) => nameOf(section, id)))].join(", ");
  const [word = "", ...rest] = verdictSentence(verdict, names).split(/(?<=[:.]) /);
  const reasons =
    cut && verdict.word !== "no answer"
      ? [...cut.vessels].flatMap(([id, vessel]) =>
          vessel.reason === "" ? [] : [`${started(nameOf(section, id))}: ${says(reasonOf(of, id, vessel))}`],
        )
      : [];
  const first = `<p class="verdict"><b>${escaped(word)}</b> ${escaped(rest.join(" "))}</p>`;
  const lines = reasons.length > 0 ? [...reasons, levelsSentence(units)] : [];
  return `<section>${first}${lines.map((line) => element("p", line)).join("")}</section>`;
}

const severityWords: Readonly<Record<Severity, string>> = {
  failure: "Fails.",
  warning: "Look at this.",
  advice: "Advice.",
};

function findingPart({ says }: Of, findings: readonly Finding[]): string {
  if (findings.length === 0) return element("p", "Nothing to look at.");
  const items = worstFirst(findings).map(
    ({ severity, text, remedy }) =>
      `<li><b>${severityWords[severity]}</b> ${escaped(says(text))}<br><span>${escaped(says(remedy))}</span></li>`,
  );
  return `<section>${element("h2", "What to look at")}<ul class="findings">${items.join("")}</ul></section>`;
}

/** The first column names the row; one in which nothing stands is left out. */
function tablePart({ title, ...table }: Table): string {
  const kept = table.heads.map((_, i) => i === 0 || table.rows.some((row) => (row[i] ?? "") !== ""));
  const heads = table.heads.filter((_, i) => kept[i]);
  const rows = table.rows.map((row) => row.filter((_, i) => kept[i]));
  const head = heads.map((text, i) => (i === 0 ? "<td></td>" : `<th scope="col">${escaped(text)}</th>`)).join("");
  const lines = rows.map(
    (row) =>
      `<tr>${row.map((text, i) => (i === 0 ? `<th scope="row">${escaped(text)}</th>` : element("td", text))).join("")}</tr>`,
  );
  return `<section>${element("h2", title)}<table><thead><tr>${head}</tr></thead><tbody>${lines.join("")}</tbody></table></section>`;
}

function cutPart(of: Of, cut: PowerCut): readonly string[] {
  const end = cut.settled
    ? `At rest after ${formatTime(cut.duration)}.`
    : `Still moving after ${formatTime(cut.duration)}, where the simulation ends.`;
  const lost = cut.lostToGround > 0 ? ` ${shown("volume", cut.lostToGround, of.units)} are lost to the ground.` : "";
  const steps: Table = {
    title: "The power cut, step by step",
    heads: ["", "what happens"],
    rows: cut.events.map(({ time, text }) => [formatTime(time), of.says(text)]),
  };
  return [...cutTables(of, cut).map(tablePart), tablePart(steps), element("p", `${end}${lost}`)];
}

const startPart = (of: Of, title: string, start: StartUp): string =>
  `${tablePart(startTable(of, title, start))}${element("p", startSentence(of.section, start))}`;

const style = `
@page { margin: 15mm; }
body { font: 10.5pt/1.4 Arial, "Liberation Sans", sans-serif; color: #000; background: #fff; max-width: 180mm; margin: 8mm auto; padding: 0 4mm; }
h1 { font-size: 17pt; margin: 0 0 3mm; }
h2 { font-size: 11.5pt; margin: 5mm 0 1mm; break-after: avoid; }
p { margin: 0 0 1.5mm; }
.verdict { font-size: 12.5pt; border-left: 1.6mm solid #000; padding-left: 3mm; }
ul { margin: 0; padding-left: 5mm; }
li { margin-bottom: 1.5mm; break-inside: avoid; }
.findings { list-style: none; padding: 0; }
.findings span { padding-left: 5mm; display: inline-block; }
section { overflow-x: auto; }
table { border-collapse: collapse; font-size: 9pt; font-variant-numeric: tabular-nums; }
th, td { text-align: right; padding: 0.6mm 2mm; border-bottom: 0.2mm solid #999; vertical-align: top; }
th[scope="row"], td:nth-child(2):last-child, th:nth-child(2):last-child { text-align: left; }
td { white-space: nowrap; }
td:nth-child(2):last-child { white-space: normal; }
th { font-weight: 600; }
tr { break-inside: avoid; }
@media print { body { margin: 0; padding: 0; max-width: none; } section { overflow: visible; } }
`;
