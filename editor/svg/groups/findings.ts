import type { Finding, Severity } from "../../../hydraulics/index.ts";
import type { Drawing } from "../../scene/drawing.ts";
import type { Role } from "../../scene/node.ts";
import { textWidth } from "../../scene/textWidth.ts";
import { type Says, sentencesOf } from "../../sheet/sentence.ts";
import type { Cell, TableGroup, TableItem } from "../tableColumn.ts";
import { wholeText } from "../wholeText.ts";
import { normal, paragraph } from "./cells.ts";
import type { Numbers } from "./group.ts";

const severities: Readonly<Record<Severity, { readonly word: string; readonly fill: Role; readonly rank: number }>> = {
  failure: { word: "Fails.", fill: "drains", rank: 0 },
  warning: { word: "Look at this.", fill: "part", rank: 1 },
  advice: { word: "Advice.", fill: "soft", rank: 2 },
};

export function findingsGroup({ section, findings, running, system }: Drawing, _: Numbers, width: number): TableGroup {
  const worst = [...findings].sort((a, b) => severities[a.severity].rank - severities[b.severity].rank);
  const says = sentencesOf(section, system);
  const nothing = running ? "Nothing that this program looks for." : "Not solved, so nothing is known.";
  return {
    key: "findings",
    title: "What to look at",
    items:
      worst.length > 0
        ? worst.map((finding) => findingItem(finding, says, width))
        : [paragraph(nothing, width, { fill: "soft" })],
    gap: 1,
  };
}

function findingItem({ severity, text, remedy }: Finding, says: Says, width: number): TableItem {
  const { word, fill } = severities[severity];
  const start = textWidth(`${word} `, normal.size, normal.weight);
  const [first = "", ...rest] = wholeText(says(text), width, normal, width - start);
  return [
    // The word in its colour, the rest of its line in ink behind it.
    [
      { x: 0, text: word, weight: 400, fill },
      { x: start, text: first, weight: 400 },
    ],
    ...rest.map((line): readonly Cell[] => [{ x: 0, text: line }]),
    ...paragraph(says(remedy), width, { indent: 2, fill: "soft" }),
  ];
}
