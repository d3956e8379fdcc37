import type { Spillway } from "../../document/section.ts";
import type { RunningState } from "../../solver/running.ts";
import { judged, type Rule } from "./rule.ts";

export const sillRules = (sill: Spillway, running: RunningState): readonly Rule[] => [
  judged({
    code: "sheet",
    part: sill.id,
    rule: "Water over a sill, per width: light, usual, strong",
    // 50, 100 and 200 gph per inch
    least: (75e-3 / 3600) * 100,
    most: (298e-3 / 3600) * 100,
    quantity: "flowPerWidth",
    has: running.spillways.get(sill.id)?.perWidth ?? null,
    source: "published",
    where: "newspaper, nursery and trade columns, which disagree on the sheet",
  }),
];
