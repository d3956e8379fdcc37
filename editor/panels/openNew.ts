import type { Section } from "../../hydraulics/index.ts";
import type { Desk } from "../state/desk.ts";

/** Another drawing on the desk, with a way back to the one that lay there. */
export function openNew(desk: Desk, section: Section): void {
  const before = desk.get();
  desk.open(section, null);
  if (before.section.parts.size === 0) return;
  desk.say({
    text: section.parts.size > 0 ? "Drawn as a new drawing." : "A new sheet.",
    tone: "plain",
    act: {
      label: `Back to ${before.section.title}`,
      run: () => desk.open(before.section, before.file, before.drawing),
    },
  });
}
