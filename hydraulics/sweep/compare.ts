/** Two states of a drawing side by side: what was changed, and what the figures make of it. */
import type { PartId, Section } from "../document/section.ts";
import { writeSection } from "../document/write.ts";
import type { Assessment } from "../report/assessment.ts";

/** One field that differs; null where the part or the field is not there. */
export interface FieldChange {
  readonly part: PartId | null;
  /** as in the file: `media[0].depth`; empty for a part that came or went */
  readonly field: string;
  readonly was: string | number | boolean | null;
  readonly now: string | number | boolean | null;
}

export type ComparedQuantity = "flow" | "head" | "velocity" | "level" | "margin" | "money" | "word" | "count";

export interface FigureChange {
  readonly part: PartId | null;
  readonly what: string;
  readonly quantity: ComparedQuantity;
  readonly was: number | string | null;
  readonly now: number | string | null;
}

type Leaf = string | number | boolean;

export function fieldChanges(before: Section, after: Section): readonly FieldChange[] {
  const a = leavesOf(before);
  const b = leavesOf(after);
  const changes: FieldChange[] = [];
  for (const id of new Set([...a.keys(), ...b.keys()])) {
    const was = a.get(id);
    const now = b.get(id);
    const part = id === "" ? null : (id as PartId);
    if (!was || !now) changes.push({ part, field: "", was: was ? "there" : null, now: now ? "there" : null });
    else
      for (const field of new Set([...was.keys(), ...now.keys()])) {
        const x = was.get(field) ?? null;
        const y = now.get(field) ?? null;
        if (x !== y) changes.push({ part, field, was: x, now: y });
      }
  }
  return changes;
}

/** By part (`` for the drawing itself) and by field. */
function leavesOf(section: Section): ReadonlyMap<string, ReadonlyMap<string, Leaf>> {
  const { parts, ...drawing } = JSON.parse(writeSection(section)) as { parts: { id: string }[] };
  const all = new Map<string, ReadonlyMap<string, Leaf>>([["", flat(drawing)]]);
  for (const part of parts) all.set(part.id, flat(part));
  return all;
}

function flat(value: unknown, path = "", into = new Map<string, Leaf>()): Map<string, Leaf> {
  if (Array.isArray(value)) for (const [k, each] of value.entries()) flat(each, `${path}[${k}]`, into);
  else if (typeof value === "object" && value !== null)
    for (const [key, each] of Object.entries(value)) flat(each, path === "" ? key : `${path}.${key}`, into);
  else if (value !== null && value !== undefined) into.set(path, value as Leaf);
  return into;
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
