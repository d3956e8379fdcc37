import type { Section } from "../document/section.ts";
import { planArea } from "../document/volumes.ts";
import { type MaterialRow, plainRow } from "./row.ts";

export function vesselRows(section: Section): readonly MaterialRow[] {
  return [...section.parts.values()].flatMap((part) => {
    if (part.kind !== "vessel") return [];
    const height = part.rimLevel - part.baseLevel;
    const plan =
      part.plan.shape === "round"
        ? `${short(part.plan.diameter)} m across`
        : `${short(part.plan.width)} m by ${short(part.plan.length)} m`;
    const what = `vessel, ${plan}, ${short(height)} m high`;
    return [
      plainRow({
        key: `vessel: ${what}, ${part.id}`,
        group: "vessel",
        what,
        priced: "piece",
        amount: 1,
        volume: planArea(part) * height,
        parts: [part.id],
      }),
    ];
  });
}

const short = (metres: number): string => String(Number(metres.toFixed(3)));
