/** What was changed between two states of a drawing, as its slips say it: names of parts, their fields, shown units. */
import type { Part, PartId, Section } from "../../../hydraulics/index.ts";
import { partName } from "../../sheet/partName.ts";
import type { UnitSystem } from "../../sheet/units.ts";
import { inOrder } from "../../state/inOrder.ts";
import { linesOf, linesOfDrawing, type PartLine } from "./partLines.ts";

export interface ChangeInWords {
  /** null: the drawing itself */
  readonly part: PartId | null;
  readonly name: string;
  readonly field: string;
  readonly was: string;
  readonly now: string;
}

export function changesInWords(before: Section, after: Section, units: UnitSystem): readonly ChangeInWords[] {
  const gone = inOrder(before).filter(({ id }) => !after.parts.has(id));
  return [
    ...changed(linesOfDrawing(before, units), linesOfDrawing(after, units)).map((change) => ({
      part: null,
      name: "the drawing",
      ...change,
    })),
    ...[...inOrder(after), ...gone].flatMap(({ id }) => {
      const [was, now] = [before.parts.get(id), after.parts.get(id)];
      if (was === now) return [];
      return partChanges(before, was, after, now, units).map((change) => ({
        part: id,
        name: partName(now ?? was ?? { id }),
        ...change,
      }));
    }),
  ];
}

type Change = Pick<ChangeInWords, "field" | "was" | "now">;

function partChanges(
  before: Section,
  was: Part | undefined,
  after: Section,
  now: Part | undefined,
  units: UnitSystem,
): readonly Change[] {
  if (was && now && was.kind === now.kind) return changed(linesOf(before, was, units), linesOf(after, now, units));
  return [{ field: "the part itself", was: was ? "there" : "—", now: now ? "there" : "—" }];
}

/** Lines that differ; one that only one of the two has is a dash in the other. */
function changed(was: readonly PartLine[], now: readonly PartLine[]): readonly Change[] {
  const before = new Map(was.map((line) => [line.label, line]));
  const after = new Map(now.map((line) => [line.label, line]));
  return [...new Set([...after.keys(), ...before.keys()])].flatMap((field) => {
    const [old, fresh] = [before.get(field), after.get(field)];
    if (old?.exact === fresh?.exact) return [];
    if (old && fresh && old.shown === fresh.shown) return [finer(field, old, fresh)];
    return [{ field, was: old?.shown ?? "—", now: fresh?.shown ?? "—" }];
  });
}

/** Read alike as they are shown, so with every digit; places of bends are no reading, and are only said to have moved. */
const finer = (field: string, old: PartLine, fresh: PartLine): Change =>
  field === "Bends"
    ? { field, was: old.shown, now: `${fresh.shown}, moved` }
    : { field, was: old.exact, now: fresh.exact };
