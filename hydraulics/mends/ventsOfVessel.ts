/** Vents above the water that are too small to hold a vessel, made ample where they stand. */
import type { Section } from "../document/section.ts";
import { boreWords, called } from "../findings/words.ts";
import { fullyOpen, withAmpleVent, withPart } from "./ampleVent.ts";
import { enoughOpen, openWords } from "./enoughOpen.ts";
import type { Remedy } from "./remedy.ts";
import { unsafeLines } from "./unsafeLines.ts";

export const ventsOfVessel: Remedy = function* ({ section, assessed, finding }) {
  for (const id of finding.parts) {
    const lines = unsafeLines(assessed, id);
    let now: Section | null = lines.length > 0 ? section : null;
    const said: string[] = [];
    for (const { vents, level } of lines) {
      const high = vents.find(
        (vent) => (assessed.state.network.vents.get(vent.id)?.teeLevel ?? Number.NEGATIVE_INFINITY) >= level,
      );
      if (!now || !high) break;
      const open = enoughOpen(assessed, high) ?? 1;
      now = withAmpleVent(withPart(now, open < 1 ? { ...high, open } : fullyOpen(high)), high.id);
      const vent = now?.parts.get(high.id);
      if (vent?.kind !== "vent") break;
      const name = called(section, vent.id);
      const opened = high.open !== undefined && high.open < 1 ? openWords(open) : null;
      if (vent.bore === high.bore) said.push(`Open ${name} ${opened ?? "fully"}`);
      else said.push(`Give ${name} a bore of ${boreWords(vent.bore)}${opened ? ` and open it ${opened}` : ""}`);
    }
    if (now && said.length === lines.length) yield { label: said.join("; "), section: now };
  }
};
