import type { Section } from "../../hydraulics/index.ts";
import type { Desk } from "../state/desk.ts";

/** Puts another drawing on the desk and says how to get back to the one that lay there, which the browser keeps. */
export function openOther(desk: Desk, section: Section, said: string): void {
  const before = desk.get();
  desk.open(section, null);
  desk.say({
    text: said,
    tone: "plain",
    ...(before.section.parts.size === 0
      ? {}
      : {
          act: {
            label: `Back to ${before.section.title || "the drawing before"}`,
            run: () => desk.open(before.section, before.file, before.drawing),
          },
        }),
  });
}
