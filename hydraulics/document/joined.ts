import type { PartId, PipeEnd, Section } from "./section.ts";

/** The bodies that something leads to or from: a pipe, a sill, a pump that stands in them, another vessel's overflow.
 * Of the others there is nothing to be said: no water comes, and none can leave. */
export function joinedBodies({ parts }: Section): ReadonlySet<PartId> {
  const joined = new Set<PartId>();
  const end = (each: PipeEnd): void => {
    if ("part" in each) joined.add(each.part);
  };
  for (const part of parts.values()) {
    if (part.kind === "pipe") {
      end(part.from);
      end(part.to);
    } else if (part.kind === "spillway") {
      joined.add(part.from);
      if (part.to !== "ground") joined.add(part.to);
    } else if (part.kind === "pump" && part.in !== undefined) joined.add(part.in);
    else if (part.kind === "vessel" && part.overflow !== undefined && part.overflow !== "ground")
      joined.add(part.overflow).add(part.id);
  }
  return joined;
}
