/** An ample vent at the top of a line that stands under too much suction: it is not counted on to pull any more. */
import type { Vent, Vessel } from "../document/section.ts";
import { boreWords, called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import type { Remedy } from "./remedy.ts";
import { endOverRim, putVent } from "./ventAtTop.ts";

export const ventOnLine: Remedy = function* ({ section, finding }) {
  const [id] = finding.parts;
  const pipe = id === undefined ? undefined : section.parts.get(id);
  if (pipe?.kind !== "pipe") return;
  const own = [...section.parts.values()].find(
    (part): part is Vent => part.kind === "vent" && part.on.pipe === pipe.id,
  );
  const rims = [...section.parts.values()].filter((part): part is Vessel => part.kind === "vessel");
  const put = putVent(section, pipe, own, Math.max(...rims.map(({ rimLevel }) => rimLevel + endOverRim), 0));
  const vent = put?.section.parts.get(put.vent);
  if (!put || vent?.kind !== "vent") return;
  yield {
    label: own
      ? `Move ${called(section, own.id)} of ${boreWords(vent.bore)} to the top of ${called(section, pipe.id)}, ${levelWords(put.level)}`
      : `Put a vent of ${boreWords(vent.bore)} on ${called(section, pipe.id)} at its top, ${levelWords(put.level)}`,
    section: put.section,
  };
};
