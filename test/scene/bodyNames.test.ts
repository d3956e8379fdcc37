/** On a phone there is no room for all words. What the ponds and vessels are called is not among those left out. */
import { expect, test } from "vitest";
import { designs, drawingsIn, readDrawing, samples } from "../scenarios/readDrawing.ts";
import { paperOfWindow, sceneOf, windows } from "./sheets.ts";

/** mm under the frame's edge that stencils take, on a wide sheet and on a narrow one */
const headrooms = [16, 23];

test.each(drawingsIn(designs, samples))("on a narrow sheet %s says what its bodies are called", (file) => {
  const section = readDrawing(file);
  const bodies = [...section.parts.values()].filter(({ kind }) => kind === "pond" || kind === "vessel");
  for (const system of ["metric", "us"] as const)
    for (const headroom of headrooms) {
      const { labels } = sceneOf(section, paperOfWindow(windows.narrow), { system, headroom });
      const keys = new Set(labels.map(({ key }) => key));

      const nameless = bodies.filter(({ id }) => !keys.has(`${id} name`));
      expect(
        nameless.map(({ id }) => id),
        `${system}, ${headroom}`,
      ).toEqual([]);
    }
});
