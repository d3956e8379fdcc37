/** From five answers to a whole layout: pond, pump, supply over a loop with a breather, vessel with stone, returns that
 * carry the flow with room to spare, flush.
 *
 * Every size is tried on the solved drawing, not guessed: the supply by its velocity and what it costs, the returns by
 * what they carry at the freeboard, the breather by the air that breaks the siphon, the pond's freeboard by what comes
 * back. The last word has the assessment: a plan that does not settle, is not held by geometry or has a failure among
 * its findings is never given out; what stands against it is said instead. */
import { assess, dataOf, solveRunning } from "../assess.ts";
import type { Result, Section, Vent } from "../document/section.ts";
import { selfVentingFlow } from "../formulas/froude.ts";
import { type PipeSize, type SizeSeries, seriesNamed } from "../formulas/sizes.ts";
import { withAmpleVent, withPart } from "../mends/ampleVent.ts";
import { ventBoreFrom } from "../mends/soldSizes.ts";
import { levelWords } from "../powerCut/words.ts";
import type { Assessment } from "../report/assessment.ts";
import { type LayoutAnswers, type LayoutRefusal, withinBounds } from "./answers.ts";
import { ids, levelsOf, planOf, type Sizes } from "./plan.ts";
import { pondOf } from "./shapes.ts";

export interface Layout {
  readonly section: Section;
  readonly assessment: Assessment;
  readonly sizes: Sizes;
}

type Laid = Result<Layout, LayoutRefusal>;

const refuse = (answers: LayoutRefusal["answers"], why: string) => ({ ok: false, error: { answers, why } }) as const;

/** m/s over which the next larger supply is taken; 1.5 is the bound for economy (common practice). */
const quick = 1.2;
/** m/s under which dirt settles in a supply (common practice) */
const slow = 0.3;
/** of the pump's lift: what the supply may take of it before the next size is tried. Chosen here. */
const dear = 0.2;
/** what returns carry at the freeboard, times the flow; 1.5 is wanted (design notes, section 6) */
const margin = 1.7;
const mostReturns = 4;
/** m under which surface tension holds water back at a mouth (design notes, section 6) */
const leastReturn = 0.0255;
/** m from the rim to the returns' crown, tried in turn */
const crowns = [0.08, 0.1, 0.13, 0.17];
/** m of stone that make a filter */
const leastBed = 0.12;
/** m from the pond's water to its rim, tried in turn; it has to take what comes back */
const freeboards = [0.1, 0.15, 0.2, 0.3];
/** over the air that just breaks the siphon */
const airSpare = 1.5;

const metric = seriesNamed("PVC-U metric, SDR 21 (PN 10)");
const inch = seriesNamed("PVC Schedule 40");

export function layOut(answers: LayoutAnswers): Laid {
  const bounded = withinBounds(answers);
  if (!bounded.ok) return bounded;
  const series = answers.sold === "metric" ? metric : inch;
  let last: Laid = refuse(["pumpFlow"], "No size that is sold carries this flow.");
  for (const below of freeboards) {
    const sized = sizesFor(answers, series, below);
    if (!sized.ok) return sized;
    const pond = pondOf(answers.pondVolume, below);
    const vented = withSpareAir(planOf(answers, pond, sized.value));
    if (!vented) return refuse(["pumpFlow", "baseHeight"], "No breather that is sold breaks this line's siphon.");
    const assessment = dataOf(assess(vented, { quick: true }));
    last = judged({ section: vented, assessment, sizes: sized.value });
    if (!assessment.findings.some(({ code }) => code === "pond-over-rim-in-cut" || code === "pond-overflow-near"))
      return last;
  }
  return last;
}

/** Only what holds by geometry and has no failure is given out. */
function judged(layout: Layout): Laid {
  const { running, powerCut, findings } = layout.assessment;
  if (!running.converged || !powerCut || powerCut.failedAt)
    return refuse([], "The solver found no answer for this layout; other answers may have one.");
  const failure = findings.find(({ severity }) => severity === "failure");
  if (failure) return refuse([], failure.text);
  if ([...powerCut.vessels.values()].some(({ heldBy }) => heldBy !== "geometry"))
    return refuse(["baseHeight"], "The vessel would not hold its water by geometry; set it higher.");
  return { ok: true, value: layout };
}

function sizesFor(answers: LayoutAnswers, series: SizeSeries, below: number): Result<Sizes, LayoutRefusal> {
  const pond = pondOf(answers.pondVolume, below);
  const widest = series.sizes.at(-1) as PipeSize;
  const start: Sizes = { series, supply: widest, return: widest, returns: 1, crownBelow: crowns[0] as number };
  const { loop } = levelsOf(answers, pond, start);
  const lift = loop - pond.waterLevel;
  if (answers.pumpLift <= lift * 1.05)
    return refuse(
      ["pumpLift", "baseHeight"],
      `The loop over the vessel's rim stands ${lift.toFixed(2)} m above the pond's water, and the pump lifts ${answers.pumpLift.toFixed(2)} m at most: set the vessel lower or take a pump that lifts more.`,
    );
  const supplied = supplyFor(answers, below, start);
  if (!supplied) return refuse(["pumpLift", "pumpFlow"], "The pump delivers nothing through this line.");
  return returnsFor(answers, below, supplied);
}

interface Supplied {
  readonly sizes: Sizes;
  /** m³/s */
  readonly flow: number;
}

/** The smallest supply that is neither fast nor dear; a larger one is left where its water would creep. */
function supplyFor(answers: LayoutAnswers, below: number, start: Sizes): Supplied | null {
  let best: Supplied | null = null;
  for (const supply of start.series.sizes) {
    const sizes = { ...start, supply };
    const { running } = solveRunning(planOf(answers, pondOf(answers.pondVolume, below), sizes), { quick: true });
    const reading = running.converged ? running.pipes.get(ids.supply) : undefined;
    if (!reading || !(reading.flow > 0)) continue;
    if (best && reading.velocity < slow * 1.15) return best;
    best = { sizes, flow: reading.flow };
    if (reading.velocity <= quick && reading.frictionLoss + reading.fittingLoss <= dear * answers.pumpLift) return best;
  }
  return best;
}

/** The least and smallest returns that vent themselves and carry the flow with room to spare. */
function returnsFor(answers: LayoutAnswers, below: number, { sizes, flow }: Supplied): Result<Sizes, LayoutRefusal> {
  const pond = pondOf(answers.pondVolume, below);
  let leastRaise = Number.POSITIVE_INFINITY;
  let against: LayoutRefusal = {
    answers: ["pumpFlow"],
    why: `${mostReturns} returns of ${boreOf(sizes.series)} do not carry this flow by gravity; take a smaller pump.`,
  };
  for (let returns = 1; returns <= mostReturns; returns++) {
    for (const size of sizes.series.sizes) {
      if (size.bore < Math.max(sizes.supply.bore, leastReturn) || selfVentingFlow(size.bore) * returns < flow * 1.05)
        continue;
      for (const crownBelow of crowns) {
        const tried: Sizes = { ...sizes, return: size, returns, crownBelow };
        const levels = levelsOf(answers, pond, tried);
        if (levels.spareFall < 0) {
          leastRaise = Math.min(leastRaise, Math.ceil(-levels.spareFall * 100) / 100);
          continue;
        }
        if (levels.bed < leastBed) {
          against = {
            answers: ["vesselVolume", "pumpFlow"],
            why: "The vessel is too low for a return of this flow with stone below it; take a larger vessel or a smaller pump.",
          };
          continue;
        }
        const { running } = solveRunning(planOf(answers, pond, tried), { quick: true });
        const reading = running.converged ? running.vessels.get(ids.filter) : undefined;
        if (reading && !reading.overtops && (reading.returnMargin ?? 0) >= margin) return { ok: true, value: tried };
      }
    }
  }
  if (Number.isFinite(leastRaise))
    against = {
      answers: ["baseHeight", "distance"],
      why: `The return has too little fall on this way: set the vessel's base ${leastRaise.toFixed(2)} m higher, at ${levelWords(answers.baseHeight + leastRaise)}, or nearer to the pond.`,
    };
  return { ok: false, error: against };
}

const boreOf = (series: SizeSeries): string => `${Math.round((series.sizes.at(-1)?.bore ?? 0) * 1000)} mm bore`;

/** The breather led over what stands in it, with half as much bore again as would just do. */
function withSpareAir(section: Section): Section | null {
  const ample = withAmpleVent(section, ids.breather);
  const vent = ample?.parts.get(ids.breather);
  if (!ample || vent?.kind !== "vent") return null;
  const supply = ample.parts.get(ids.supply);
  const bore = ventBoreFrom(vent.bore * Math.sqrt(airSpare));
  if (bore === null || supply?.kind !== "pipe" || bore > supply.bore) return ample;
  return withPart(ample, { ...vent, bore } satisfies Vent);
}
