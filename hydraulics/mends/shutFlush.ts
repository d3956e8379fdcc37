/** Flush valves that stand open, shut. */
import { valveOpen, valveRole } from "../document/defaults.ts";
import type { Part, PartId } from "../document/section.ts";
import { called } from "../findings/words.ts";
import type { Remedy } from "./remedy.ts";

export const shutFlush: Remedy = function* ({ section, finding }) {
  const open = finding.parts.flatMap((id) => {
    const part = section.parts.get(id);
    return part?.kind === "valve" && valveRole(part) === "flush" && valveOpen(part) > 0 ? [part] : [];
  });
  if (open.length === 0) return;
  const parts = new Map<PartId, Part>(section.parts);
  for (const valve of open) parts.set(valve.id, { ...valve, open: 0 });
  yield { label: `Shut ${open.map(({ id }) => called(section, id)).join(" and ")}`, section: { ...section, parts } };
};
