/** A vent that passes too little: opened fully, or with the next bore as sold that is ample. */
import { ventOpen } from "../document/defaults.ts";
import { boreWords, called } from "../findings/words.ts";
import { fullyOpen, withAmpleVent, withPart } from "./ampleVent.ts";
import type { Remedy } from "./remedy.ts";
import { ventBoreFrom } from "./soldSizes.ts";

export const openVent: Remedy = function* ({ section, finding }) {
  const [id] = finding.parts;
  const vent = id === undefined ? undefined : section.parts.get(id);
  if (vent?.kind !== "vent" || ventOpen(vent) >= 1) return;
  yield { label: `Open ${called(section, vent.id)} fully`, section: withPart(section, fullyOpen(vent)) };
};

export const widenVent: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  const vent = id === undefined ? undefined : section.parts.get(id);
  if (vent?.kind !== "vent") return;
  const rated = assessed.powerCut?.vents.get(vent.id)?.ampleBore ?? null;
  const bore = rated === null ? null : ventBoreFrom(rated);
  const pipe = section.parts.get(vent.on.pipe);
  const fits = pipe?.kind === "pipe" && bore !== null && bore <= pipe.bore;
  if (fits)
    yield {
      label: `Give ${called(section, vent.id)} a bore of ${boreWords(bore)}`,
      section: withPart(section, { ...vent, bore }),
    };
  const open = withAmpleVent(withPart(section, fullyOpen(vent)), vent.id);
  const widened = open?.parts.get(vent.id);
  if (open && widened?.kind === "vent" && widened.bore > vent.bore) {
    yield {
      label: `Give ${called(section, vent.id)} a bore of ${boreWords(widened.bore)} and open it fully`,
      section: open,
    };
  }
};
