import type { PartId, Section } from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";

/** A pipe whose tees lead back to itself has no place on the sheet. The refusal, or null. */
export function leadsBack(section: Section): string | null {
  const safe = new Set<PartId>();
  const onTheWay = new Set<PartId>();
  const visit = (id: PartId): string | null => {
    if (safe.has(id)) return null;
    const pipe = section.parts.get(id);
    if (pipe?.kind !== "pipe") return null;
    if (onTheWay.has(id))
      return `${partName(pipe)} would end in itself. A tee has to be in another pipe that does not hang on this one.`;
    onTheWay.add(id);
    for (const end of [pipe.from, pipe.to]) {
      const loop = "pipe" in end ? visit(end.pipe) : null;
      if (loop) return loop;
    }
    onTheWay.delete(id);
    safe.add(id);
    return null;
  };
  for (const part of section.parts.values()) {
    const loop = part.kind === "pipe" ? visit(part.id) : null;
    if (loop) return loop;
  }
  return null;
}
