/** What builders go by, beside what this drawing has. Habits, not laws: each says where it comes from, and figures
 * that sources disagree about stand there as a span. Source: the design notes on the trade, sections 1 to 5, which name
 * the public material; "common practice" has no source. Nothing here is a finding:
 * a rule that is not met may be right. */
import type { Part, Section } from "../document/section.ts";
import type { Assessment } from "../report/assessment.ts";
import { drawingRules } from "./rules/drawing.ts";
import { pipeRules } from "./rules/pipe.ts";
import { pondRules } from "./rules/pond.ts";
import { pumpRules } from "./rules/pump.ts";
import type { Rule } from "./rules/rule.ts";
import { sillRules } from "./rules/spillway.ts";
import { ventRules } from "./rules/vent.ts";
import { vesselRules } from "./rules/vessel.ts";

export function rulesOfThumb(section: Section, { running, powerCut }: Assessment): readonly Rule[] {
  if (!running.converged) return [];
  const parts = [...section.parts.values()].sort((a, b) => a.rank - b.rank);
  const of = <K extends Part["kind"]>(kind: K) =>
    parts.filter((part): part is Extract<Part, { kind: K }> => part.kind === kind);
  const ponds = of("pond");
  const vessels = of("vessel");
  return [
    ...drawingRules(section, ponds, vessels, running),
    ...vessels.flatMap((vessel) => vesselRules(section, vessel, of("pipe"), running)),
    ...of("pipe").flatMap((pipe) => pipeRules(section, pipe, running)),
    ...of("vent").flatMap((vent) => ventRules(section, vent, running)),
    ...of("spillway").flatMap((sill) => sillRules(sill, running)),
    ...of("pump").flatMap((pump) => pumpRules(section, pump)),
    ...ponds.flatMap((pond) => pondRules(pond, powerCut)),
  ];
}
