/** A pipe drawn in two pieces of its own bore, one carrying the other on (format notes: "a joint: no tee loss, but the
 * sudden change of bore"), is the pipe that it was: for its flow, its return's capacity and what falls back in it. */
import { test } from "vitest";
import { assess } from "../../hydraulics/assess.ts";
import { lineLength, pipeLine } from "../../hydraulics/document/geometry.ts";
import type { PartId, Pipe, Section, Vessel } from "../../hydraulics/document/section.ts";
import { waterArea } from "../../hydraulics/document/volumes.ts";
import { boreArea } from "../../hydraulics/formulas/circle.ts";
import { type Case, drawings, expectLaw } from "../support/drawings.ts";
import { inTwo } from "../support/inTwo.ts";

const solved = (section: Section) => {
  const { running, powerCut, findings } = assess(section, { quick: true });
  return running.converged && powerCut?.failedAt === null ? { running, powerCut, findings } : null;
};

/** Whether valves, vents or other pipes stand on it: then its flow may change along it. */
const isBusy = (section: Section, { id }: Pipe): boolean =>
  [...section.parts.values()].some(
    (part) =>
      ("on" in part && part.on.pipe === id) ||
      (part.kind === "pipe" && [part.from, part.to].some((end) => "pipe" in end && end.pipe === id)),
  );

/** Told pipe by pipe: of a part of it the friction is less, and past what stands on it the flow is another. */
const byPipe: ReadonlySet<string> = new Set(["formulas-differ", "formula-range", "pipe-slow"]);

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
function others(
  section: Section,
  one: NonNullable<ReturnType<typeof solved>>,
  pipe: Pipe,
  backwards: boolean,
): readonly string[] {
  const two = solved(inTwo(section, pipe.id, middleOf(section, pipe), backwards));
  // A leg with a shut valve on it counts as full, one that such a valve is not on as dry where air stands over it: where
  // the line is cut decides on which side of that a short leg lies.
  const isShut = [...section.parts.values()].some(
    (part) => part.kind === "valve" && part.on.pipe === pipe.id && part.open === 0,
  );
  const said: string[] = [];
  const compare = (
    what: string,
    a: number | null | undefined,
    b: number | null | undefined,
    share = 1e-5,
    least = 1e-7,
  ): void => {
    if ((a ?? null) === null && (b ?? null) === null) return;
    if (!near(a ?? Number.NaN, b ?? Number.NaN, share, least)) said.push(`${pipe.id}: ${what} ${a}, in two ${b}`);
  };
  if (!two) return [`${pipe.id}: in two it does not converge`];
  for (const id of isBusy(section, pipe) ? [pipe.id] : [pipe.id, "rest" as PartId])
    compare(`flow of ${id}`, one.running.pipes.get(pipe.id)?.flow, two.running.pipes.get(id)?.flow);
  // Columns are counted in pieces of 20 mm, 400 at most to a line, which lie otherwise in two: two of them at most
  // change sides.
  const twoPieces = 2.1 * Math.max(0.02, lineLength(pipeLine(section, pipe)) / 400) * boreArea(pipe.bore);
  for (const [id, vessel] of one.powerCut.vessels) {
    const split = two.powerCut.vessels.get(id);
    if (vessel.verdict !== split?.verdict || vessel.heldBy !== split.heldBy)
      said.push(
        `${pipe.id}: ${id} ${vessel.verdict} by ${vessel.heldBy}, in two ${split?.verdict} by ${split?.heldBy}`,
      );
    compare(`level of ${id}`, one.running.vessels.get(id)?.level, two.running.vessels.get(id)?.level);
    const lifted = twoPieces / waterArea(section.parts.get(id) as Vessel, vessel.finalLevel);
    if (!isShut) compare(`end of ${id}`, vessel.finalLevel, split?.finalLevel, 1e-4, 1e-7 + lifted);
    const carries = (of: typeof one) => of.running.vessels.get(id)?.returnCapacity;
    compare(`capacity of ${id}`, carries(one), carries(two));
  }
  for (const [id, volume] of isShut ? [] : one.powerCut.columns)
    if (!near(volume, two.powerCut.columns.get(id) ?? 0, 0.05, twoPieces))
      said.push(`${pipe.id}: ${volume} m³ fall into ${id}, in two ${two.powerCut.columns.get(id)}`);
  const codes = ({ findings }: typeof one) =>
    [...new Set(findings.map(({ code }) => code))]
      .filter((code) => !byPipe.has(code))
      .sort()
      .join();
  if (codes(one) !== codes(two)) said.push(`${pipe.id}: finds ${codes(one)}, in two ${codes(two)}`);
  return said;
}

const again = (section: Section, wanted: Case["wanted"]): Case => ({ wanted, tag: "", section });

test("a line drawn in two pieces is the line that it was", { timeout: 120_000 }, () => {
  const cases = drawings("sensible", [30, 10]);
  expectLaw({ cases, again }, ({ section }) => {
    const one = solved(section);
    if (!one) return [];
    return [...section.parts.values()].flatMap((part) =>
      part.kind === "pipe" ? [false, true].flatMap((backwards) => others(section, one, part, backwards)) : [],
    );
  });
});
