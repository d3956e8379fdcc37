/** A pond that spills over a sill: the running level at which what leaves balances what enters. */
import { solveRunning } from "../assess.ts";
import type { PartId, Pond, Section } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { levelWords } from "../powerCut/words.ts";
import { withPart } from "./ampleVent.ts";
import type { Remedy } from "./remedy.ts";

const halvings = 30;

export const balancePond: Remedy = function* ({ section, finding }) {
  const [id] = finding.parts;
  const pond = id === undefined ? undefined : section.parts.get(id);
  if (pond?.kind !== "pond" || !spills(section, pond.id)) return;
  const level = balance(section, pond);
  if (level === null) return;
  const waterLevel = Number(level.toFixed(5));
  yield {
    label: `Draw ${called(section, pond.id)} with its running water at ${levelWords(waterLevel)}, where it balances`,
    section: withPart(section, { ...pond, waterLevel }),
  };
};

const spills = (section: Section, id: PartId): boolean =>
  [...section.parts.values()].some((part) => part.kind === "spillway" && part.from === id);

/** What enters less what leaves falls as the level rises; null where it never balances between bed and rim. */
function balance(section: Section, pond: Pond): number | null {
  const net = (waterLevel: number): number | null => {
    const { running } = solveRunning(withPart(section, { ...pond, waterLevel }), { quick: true });
    return running.converged ? (running.ponds.get(pond.id)?.netInflow ?? null) : null;
  };
  let low = pond.bedLevel;
  let high = pond.rimLevel;
  const atLow = net(low);
  const atHigh = net(high);
  if (atLow === null || atHigh === null || atLow < 0 || atHigh > 0) return null;
  for (let k = 0; k < halvings; k++) {
    const middle = (low + high) / 2;
    const here = net(middle);
    if (here === null) return null;
    if (here > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
