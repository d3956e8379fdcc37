/** Darcy-Weisbach for the whole drawing, which holds where Hazen-Williams was not tested. */
import type { Remedy } from "./remedy.ts";

export const otherFormula: Remedy = function* ({ section }) {
  if (section.site.friction === "darcy-weisbach") return;
  yield {
    label: "Reckon friction by Darcy-Weisbach",
    section: { ...section, site: { ...section.site, friction: "darcy-weisbach" } },
  };
};
