/** A vent that passes too little: opened as far as it has to be, or with the next bore as sold that is ample. */
import { boreWords, called } from "../findings/words.ts";
import { fullyOpen, withAmpleVent, withPart } from "./ampleVent.ts";
import { enoughOpen, openWords } from "./enoughOpen.ts";
import type { Remedy } from "./remedy.ts";
import { ventBoreFrom } from "./soldSizes.ts";

export const openVent: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  const vent = id === undefined ? undefined : section.parts.get(id);
  const open = vent?.kind === "vent" ? enoughOpen(assessed, vent) : null;
  if (vent?.kind !== "vent" || open === null) return;
  yield {
    label: `Open ${called(section, vent.id)} ${openWords(open)}`,
    section: withPart(section, open >= 1 ? fullyOpen(vent) : { ...vent, open }),
  };
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
