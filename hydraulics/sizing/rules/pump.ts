import type { Pump, Section } from "../../document/section.ts";
import { judged, type Rule } from "./rule.ts";

export function pumpRules(section: Section, pump: Pump): readonly Rule[] {
  const body = pump.in === undefined ? undefined : section.parts.get(pump.in);
  if (body?.kind !== "pond") return [];
  return [
    judged({
      code: "intake",
      part: pump.id,
      rule: "The pump's intake stands well off the bed (what a leak leaves for the fish)",
      least: 0.15,
      most: null,
      quantity: "length",
      has: pump.z - body.bedLevel,
      source: "published",
      where: "two accounts of ponds pumped empty in which fish lived on in 150 mm",
    }),
  ];
}
