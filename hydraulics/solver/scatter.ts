/** How far the delivered flow may lie off: the inputs are uncertain (design notes, section 10).
 *
 * C ± 7 %, K ± 30 %, pump head ± 10 %, each even over its span and the same for the whole drawing, drawn from a
 * low-discrepancy sequence (Halton, bases 2, 3 and 5; from memory), so that a drawing always gets the same range.
 * Given: the 5 % and 95 % of the delivered flow of each pump. */
import type { PartId, Section } from "../document/section.ts";
import { type Steady, solveSteady } from "./steady.ts";

const span = { c: 0.07, k: 0.3, head: 0.1 };

/** Friction and fittings at either end of their spans, the pump as it is: the band about a system curve. */
export const lossEnds = {
  least: { c: 1 + span.c, k: 1 - span.k, head: 1 },
  greatest: { c: 1 - span.c, k: 1 + span.k, head: 1 },
} as const;

export function deliveredRange(
  section: Section,
  state: Steady,
  samples = 24,
): ReadonlyMap<PartId, readonly [number, number]> {
  const flows = new Map<PartId, number[]>();
  for (let k = 1; k <= samples; k++) {
    const draw = (base: number) => 2 * halton(k, base) - 1;
    const scatter = { c: 1 + span.c * draw(2), k: 1 + span.k * draw(3), head: 1 + span.head * draw(5) };
    const tried = solveSteady(section, { scatter, from: state });
    if (!tried.solved.converged) continue;
    for (const [id, { link }] of tried.network.pumps) {
      const list = flows.get(id) ?? [];
      list.push(Math.max(0, link?.Q ?? 0));
      flows.set(id, list);
    }
  }
  return new Map([...flows].map(([id, list]) => [id, [quantile(list, 0.05), quantile(list, 0.95)] as const]));
}

/** Delivered flow of pumps with a stand-in curve if that curve were a straight line. */
export function straightLineFlows(section: Section, state: Steady): ReadonlyMap<PartId, number> {
  const standIns = [...state.network.pumps.values()].filter(({ pump }) => !pump.curve).map(({ pump }) => pump.id);
  if (standIns.length === 0) return new Map();
  const straight = solveSteady(section, { straightCurves: true, from: state });
  if (!straight.solved.converged) return new Map();
  return new Map(standIns.map((id) => [id, Math.max(0, straight.network.pumps.get(id)?.link?.Q ?? 0)]));
}

/** The k-th number of the Halton sequence in a base, in (0, 1). */
function halton(k: number, base: number): number {
  let value = 0;
  let share = 1 / base;
  for (let rest = k; rest > 0; rest = Math.floor(rest / base)) {
    value += share * (rest % base);
    share /= base;
  }
  return value;
}

function quantile(list: readonly number[], share: number): number {
  const sorted = [...list].sort((a, b) => a - b);
  const at = share * (sorted.length - 1);
  const low = Math.floor(at);
  const a = sorted[low] ?? 0;
  return a + ((sorted[low + 1] ?? a) - a) * (at - low);
}
