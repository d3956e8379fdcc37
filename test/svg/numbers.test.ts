/** A number on the drawing leads to a row of the parts list: none of them may be missing, however full the drawing is. */
import { expect, test } from "vitest";
import { partNumbers } from "../../editor/svg/partsList.ts";
import { type SheetOptions, sheetsOf } from "../../editor/svg/write.ts";
import { drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";
import { assessmentOf } from "../support/assessmentOf.ts";

const papers: readonly Pick<SheetOptions, "paper" | "system">[] = [
  { paper: "A4", system: "metric" },
  { paper: "A3", system: "metric" },
  { paper: "Letter", system: "us" },
];

test.each(drawingsIn(samples))("every part of %s has its number on the drawing, on each paper", (file) => {
  const section = readDrawing(file);
  const { running, powerCut, findings } = assessmentOf(section);
  for (const paper of papers) {
    const [first] = sheetsOf({ section, running, powerCut, findings, theme: "print", ...paper });
    const written = (first?.nodes ?? []).flatMap((node) =>
      node.shape === "text" && node.part !== null ? [`${node.part} ${node.text}`] : [],
    );

    for (const [id, number] of partNumbers(section.parts.values())) expect(written).toContain(`${id} ${number}`);
  }
});
