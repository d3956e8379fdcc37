/** Two states of a drawing side by side: what the figures make of what was changed. */
import type { PartId } from "../document/section.ts";
import type { Assessment } from "../report/assessment.ts";

export type ComparedQuantity = "flow" | "head" | "velocity" | "level" | "margin" | "money" | "word" | "count";

export interface FigureChange {
  readonly part: PartId | null;
  readonly what: string;
  readonly quantity: ComparedQuantity;
  readonly was: number | string | null;
  readonly now: number | string | null;
}

/** The figures that decide, of every part that is in one of the two, those that are the same among them. */
export function figureChanges(before: Assessment, after: Assessment): readonly FigureChange[] {
  const a = figuresOf(before);
  const b = figuresOf(after);
  return [...new Set([...a.keys(), ...b.keys()])].map((key) => {
    const was = a.get(key);
    const now = b.get(key);
    const either = (was ?? now) as Figure;
    return {
      part: either.part,
      what: either.what,
      quantity: either.quantity,
      was: was?.value ?? null,
      now: now?.value ?? null,
    };
  });
}

interface Figure {
  readonly part: PartId | null;
  readonly what: string;
  readonly quantity: ComparedQuantity;
  readonly value: number | string | null;
}

function figuresOf({ running, powerCut, findings }: Assessment): ReadonlyMap<string, Figure> {
  const all = new Map<string, Figure>();
  const add = (part: PartId | null, what: string, quantity: ComparedQuantity, value: number | string | null) =>
    all.set(`${part ?? ""} ${what}`, { part, what, quantity, value });
  if (running.converged) {
    for (const [id, pump] of running.pumps) {
      add(id, "delivers", "flow", pump.flow);
      add(id, "at a head of", "head", pump.head);
      if (pump.yearlyCost !== null) add(id, "costs a year", "money", pump.yearlyCost);
    }
    for (const [id, vessel] of running.vessels) {
      add(id, "water stands at", "level", vessel.level);
      add(id, "return carries, times the inflow", "margin", vessel.returnMargin);
      const cut = powerCut?.vessels.get(id);
      if (cut) {
        add(id, "in a power cut", "word", cut.verdict === "drains" ? "drains" : held(cut.heldBy));
        add(id, "and ends at", "level", cut.finalLevel);
      }
    }
    for (const [id, pipe] of running.pipes) {
      add(id, "carries", "flow", pipe.flow);
      add(id, "velocity", "velocity", pipe.velocity);
      add(id, "loses in all", "head", pipe.frictionLoss + pipe.fittingLoss);
    }
    for (const [id] of running.ponds) {
      const cut = powerCut?.ponds.get(id);
      if (cut) add(id, "highest after a power cut", "level", cut.highestLevel);
    }
  }
  for (const severity of ["failure", "warning", "advice"] as const)
    add(null, `findings: ${severity}`, "count", findings.filter((finding) => finding.severity === severity).length);
  return all;
}

const held = (by: string): string => (by === "movingPart" ? "held by a moving part" : "held by geometry");
