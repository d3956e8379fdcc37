import type { Pond } from "../../document/section.ts";
import type { PowerCut } from "../../powerCut/powerCut.ts";
import { judged, type Rule } from "./rule.ts";

export function pondRules(pond: Pond, powerCut: PowerCut | null): readonly Rule[] {
  const cut = powerCut?.ponds.get(pond.id);
  return [
    judged({
      code: "pond-freeboard",
      part: pond.id,
      rule: "Room left under the pond's rim after a power cut",
      least: 0.05,
      most: null,
      quantity: "length",
      has: cut ? pond.rimLevel - cut.highestLevel : null,
      source: "common practice",
      where: "50 to 75 mm besides what drains back",
    }),
  ];
}
