/** What would keep a vessel's water in, said from the way by which the power cut lets it go. */
import type { PartId } from "../document/section.ts";
import { isLineShut } from "../network/chains.ts";
import { bottomDraws } from "../powerCut/bottomDraw.ts";
import type { CutVent, CutVessel } from "../powerCut/powerCut.ts";
import { levelWords } from "../powerCut/words.ts";
import { flushPipes } from "../solver/outlets.ts";
import type { Steady } from "../solver/steady.ts";
import { type LineOf, linesOf, ventsOn } from "./linesOf.ts";
import type { Looked } from "./rule.ts";
import { upToTenth } from "./upToTenth.ts";
import { boreWords, called } from "./words.ts";

export function whatHolds({ section, state, powerCut }: Looked, id: PartId, cut: CutVessel): string {
  const level = levelWords(cut.startLevel);
  const flush = openFlush(state, id, cut.restingLevel);
  if (flush) return `Shut the flush valve of ${called(section, flush)}.`;
  const hole = openEndReached(state, id, cut);
  if (hole)
    return `Lead the open end of ${called(section, hole)} higher than the running water level of ${level}: the vessel runs out of it.`;
  const draw = bottomDraws(state).find(({ body }) => body === id);
  if (draw)
    return `Draw ${called(section, draw.pipe)} from the water's surface, or put an ample vent at its crest (${levelWords(draw.crestLevel)}).`;

  const ratings = powerCut?.vents ?? new Map<PartId, CutVent>();
  const lines = linesOf(state, id).filter(({ opening }) => opening.edge < Math.min(cut.startLevel, cut.restingLevel));
  const line = lines.find((each) => !isHeld(state, each, ratings, cut)) ?? lines[0];
  if (!line) return "Close the way by which the water leaves below the outlet, or end it higher than the outlet.";
  if (line.crest <= cut.startLevel)
    return `Carry ${called(section, line.pipe.pipe.id)} over a point higher than ${level} with an ample vent there, or end it above the water; a check valve helps as long as it seals.`;
  const vents = ventsOn(state, line);
  const low = vents.find(({ teeLevel }) => teeLevel < cut.startLevel);
  const small = vents.find(
    ({ vent, teeLevel }) => teeLevel >= cut.startLevel && ratings.get(vent.id)?.rating !== "ample",
  );
  const enough = small ? (ratings.get(small.vent.id)?.ampleBore ?? null) : null;
  if (small && enough !== null)
    return `Give ${called(section, small.vent.id)} a bore of at least ${boreWords(upToTenth(enough))}, opened as it is now, or open it further.`;
  if (low)
    return `Move the tee of ${called(section, low.vent.id)} to a point of the line above the running water level of ${level}, and see that it is ample there.`;
  return `Put an ample vent on ${called(section, line.pipe.pipe.id)} at a point above ${level}, or end it above the water.`;
}

/** An ample vent above the water breaks this line: the water went another way. */
const isHeld = (
  state: Steady,
  line: LineOf,
  ratings: ReadonlyMap<PartId, CutVent>,
  { startLevel }: CutVessel,
): boolean =>
  ventsOn(state, line).some(({ vent, teeLevel }) => teeLevel >= startLevel && ratings.get(vent.id)?.rating === "ample");

/** A flush that is not shut and draws from under the level at which the outlets stop. */
function openFlush(state: Steady, id: PartId, restingLevel: number): PartId | null {
  for (const pipe of flushPipes(state.network)) {
    if (isLineShut(state.network, pipe)) continue;
    for (const end of [pipe.from, pipe.to]) {
      if (end.kind === "body" && end.opening.body === id && end.opening.edge < restingLevel) return pipe.pipe.id;
    }
  }
  return null;
}

/** m: between the stones what falls back out of the legs lifts the level by a little */
const nearEnd = 0.01;

/** A vent whose open end is where the level came to rest. */
function openEndReached(state: Steady, id: PartId, { startLevel, finalLevel }: CutVessel): PartId | null {
  for (const line of linesOf(state, id)) {
    for (const { vent, endLevel, spillsTo } of ventsOn(state, line)) {
      if (spillsTo !== id && line.crest <= startLevel && Math.abs(finalLevel - endLevel) <= nearEnd) return vent.id;
    }
  }
  return null;
}
