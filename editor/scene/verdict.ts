/** The drawing's verdict in the sheet's own words, with the colour and the shape of its edge in the title block. */
import type { Finding, PowerCut, RunningState, Section } from "../../hydraulics/index.ts";
import { formatLevel, type UnitSystem } from "../sheet/units.ts";

export interface SheetVerdict {
  readonly words: string;
  readonly by: string;
  readonly reason: string;
  readonly tone: "held" | "part" | "drains" | "soft";
}

export function sheetVerdict(
  section: Section,
  running: RunningState | null,
  powerCut: PowerCut | null,
  findings: readonly Finding[],
  system: UnitSystem,
): SheetVerdict {
  const kinds = new Set([...section.parts.values()].map((part) => part.kind));
  if (section.parts.size === 0) return { words: "An empty sheet", by: "", reason: "Place a pond, a vessel and a pump from the row above, then pull a pipe from one to the other.", tone: "soft" };
  const failure = findings.find((finding) => finding.severity === "failure");
  if (!running) {
    return failure
      ? { words: "No figures", by: "", reason: failure.text, tone: "drains" }
      : { words: "Being solved", by: "", reason: "", tone: "soft" };
  }
  if (!kinds.has("vessel")) return { words: "No vessel drawn", by: "", reason: failure?.text ?? "Without a filter vessel there is nothing to hold.", tone: failure ? "drains" : "soft" };
  if (!powerCut) return { words: "Being solved", by: "", reason: "", tone: "soft" };
  const vessels = [...powerCut.vessels.values()];
  const drained = vessels.filter((vessel) => vessel.verdict === "drains").sort((a, b) => a.finalLevel - b.finalLevel)[0];
  if (drained) return { words: `Drains, to ${formatLevel(drained.finalLevel, system)}`, by: "", reason: drained.reason, tone: "drains" };
  if (failure) {
    const holds = vessels.every((vessel) => vessel.heldBy === "geometry") ? "held by geometry" : "held by a moving part";
    return { words: "Loses water", by: `vessel ${holds}`, reason: failure.text, tone: "drains" };
  }
  const part = vessels.find((vessel) => vessel.heldBy === "movingPart");
  if (part) return { words: "Holds its water,", by: "by a moving part", reason: part.reason, tone: "part" };
  return { words: "Holds its water,", by: "by geometry", reason: vessels[0]?.reason ?? "", tone: "held" };
}
