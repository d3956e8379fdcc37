/** A pipe drawn in two pieces of its own bore, one carrying the other on (format notes: "a joint: no tee loss, but the
 * sudden change of bore"), is the pipe that it was: for its flow, its return's capacity and what falls back in it. */
import { test } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import { lineLength, pipeLine } from "../../hydraulics/document/geometry.ts";
import type { PartId, Pipe, Section } from "../../hydraulics/document/section.ts";
import { type Case, drawings, expectLaw } from "../support/drawings.ts";
import { inTwo } from "../support/inTwo.ts";

const solved = (section: Section) => {
  const { running, powerCut, findings } = assess(section, { quick: true });
  return running.converged && powerCut?.failedAt === null ? { running, powerCut, findings } : null;
};

/** Nothing sits or ends on it, and its fittings, whose place is its first end, are none. */
const canBeCut = (section: Section, pipe: Pipe): boolean =>
  !pipe.fittings?.length &&
  !pipe.extraLength &&
  ![...section.parts.values()].some(
    (part) =>
      ("on" in part && part.on.pipe === pipe.id) ||
      (part.kind === "pipe" && [part.from, part.to].some((end) => "pipe" in end && end.pipe === pipe.id)),
  );

/** m along it, amid its longest stretch */
function middleOf(section: Section, pipe: Pipe): number {
  const line = pipeLine(section, pipe);
  const legs = line.slice(1).map((_, k) => lineLength(line.slice(k, k + 2)));
  const longest = legs.indexOf(Math.max(...legs));
  return legs.slice(0, longest).reduce((sum, leg) => sum + leg, 0) + (legs[longest] as number) / 2;
}

const near = (a: number, b: number, share: number, least: number): boolean =>
  Math.abs(a - b) <= least + share * Math.abs(a);

/** What is other in two pieces, in words. */
function others(section: Section, pipe: Pipe, backwards: boolean): readonly string[] {
  const one = solved(section);
  if (!one) return [];
  const two = solved(inTwo(section, pipe.id, middleOf(section, pipe), backwards));
  const said: string[] = [];
  const compare = (what: string, a: number | null | undefined, b: number | null | undefined, share = 1e-5): void => {
    if ((a ?? null) === null && (b ?? null) === null) return;
    if (!near(a ?? Number.NaN, b ?? Number.NaN, share, 1e-7)) said.push(`${pipe.id}: ${what} ${a}, in two ${b}`);
  };
  if (!two) return [`${pipe.id}: in two it does not converge`];
  for (const id of [pipe.id, "rest" as PartId])
    compare(`flow of ${id}`, one.running.pipes.get(pipe.id)?.flow, two.running.pipes.get(id)?.flow);
  for (const [id, vessel] of one.powerCut.vessels) {
    const split = two.powerCut.vessels.get(id);
    if (vessel.verdict !== split?.verdict || vessel.heldBy !== split.heldBy)
      said.push(
        `${pipe.id}: ${id} ${vessel.verdict} by ${vessel.heldBy}, in two ${split?.verdict} by ${split?.heldBy}`,
      );
    compare(`level of ${id}`, one.running.vessels.get(id)?.level, two.running.vessels.get(id)?.level);
    compare(`end of ${id}`, vessel.finalLevel, split?.finalLevel, 1e-4);
    const carries = (of: typeof one) => of.running.vessels.get(id)?.returnCapacity;
    compare(`capacity of ${id}`, carries(one), carries(two));
  }
  // Columns are counted in pieces of 20 mm, which lie otherwise in two.
  for (const [id, volume] of one.powerCut.columns)
    if (!near(volume, two.powerCut.columns.get(id) ?? 0, 0.05, 2e-5))
      said.push(`${pipe.id}: ${volume} m³ fall into ${id}, in two ${two.powerCut.columns.get(id)}`);
  const codes = ({ findings }: typeof one) => [...new Set(findings.map(({ code }) => code))].sort().join();
  if (codes(one) !== codes(two)) said.push(`${pipe.id}: finds ${codes(one)}, in two ${codes(two)}`);
  return said;
}

const again = (section: Section, wanted: Case["wanted"]): Case => ({ wanted, tag: "", section });

test("a line drawn in two pieces is the line that it was", { timeout: 120_000 }, () => {
  const cases = drawings("sensible", [40, 15]);
  expectLaw({ cases, again }, ({ section }) =>
    [...section.parts.values()].flatMap((part) =>
      part.kind === "pipe" && canBeCut(section, part)
        ? [false, true].flatMap((backwards) => others(section, part, backwards))
        : [],
    ),
  );
});
