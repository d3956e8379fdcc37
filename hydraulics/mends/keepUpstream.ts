/** What a vessel runs over with in a power cut comes from another that drains: that one held. */
import type { Finding } from "../findings/finding.ts";
import type { Remedy } from "./remedy.ts";

/** The remedies that hold a vessel, for each that drains. */
export const keepUpstream = (holds: readonly Remedy[]): Remedy =>
  function* (trouble) {
    for (const drains of trouble.assessed.findings.filter(({ code }: Finding) => code === "vessel-drains")) {
      if (drains.parts[0] === trouble.finding.parts[0]) continue;
      for (const remedy of holds) yield* remedy({ ...trouble, finding: drains });
    }
  };
