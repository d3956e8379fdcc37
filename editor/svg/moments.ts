/** Moments of a power cut worth a picture, from before it to rest, as they are told to a class. */
import type { PartId, PowerCut } from "../../hydraulics/index.ts";
import { formatTime } from "../sheet/units.ts";

export interface Moment {
  /** s after the power failed; null: before, with the pumps running */
  readonly time: number | null;
  readonly title: string;
}

export const before: Moment = { time: null, title: "Before: the pumps run" };

/** Whether there is anything to tell of. */
export const hasMoments = (cut: PowerCut | null): cut is PowerCut =>
  cut !== null && cut.failedAt === null && cut.history.times.length > 1 && cut.history.levels.size > 0;

/** Pictures that one sheet takes. */
export const mostMoments = 4;
/** s; what happens within it happens as the power fails */
const atOnce = 1;
/** share of the whole */
const nearlyOver = 0.7;

/** Before, the moment that decides, at rest. What decides is the siphon's break or a flap's closing; where that comes
 * with the failure itself, or only when all is over, the moment at which the vessel that falls most has lost half of
 * its fall. */
export function tellingMoments(cut: PowerCut): readonly Moment[] {
  const end = cut.history.times.at(-1) ?? cut.duration;
  const decides = cut.events.find(
    ({ code, time }) =>
      (code === "siphonBroken" || code === "checkValveShuts") && time > atOnce && time < nearlyOver * end,
  );
  const broken = decides?.code === "siphonBroken" ? "the siphon is broken" : "the flap has shut";
  const middle: Moment | null = decides
    ? { time: decides.time, title: `After ${formatTime(decides.time)}: ${broken}` }
    : halfway(cut);
  return [before, ...(middle ? [middle] : []), rest(cut, end)];
}

const rest = (cut: PowerCut, end: number): Moment => ({
  time: end,
  title: `After ${formatTime(end)}: ${cut.settled ? "at rest" : "not yet at rest"}`,
});

/** A moment as it is asked for: some seconds after the failure. */
export function momentAt(cut: PowerCut, time: number): Moment {
  const end = cut.history.times.at(-1) ?? cut.duration;
  if (time < 0.05) return { time, title: "As the power fails" };
  return time >= end ? rest(cut, end) : { time, title: `${formatTime(time)} after the power failed` };
}

function halfway(cut: PowerCut): Moment | null {
  const [id] =
    [...cut.vessels].sort(([, a], [, b]) => b.startLevel - b.finalLevel - (a.startLevel - a.finalLevel))[0] ?? [];
  const time = id === undefined ? null : timeOfHalfFall(cut, id);
  return time === null || time <= 0 ? null : { time, title: `After ${formatTime(time)}: on the way down` };
}

function timeOfHalfFall({ history }: PowerCut, id: PartId): number | null {
  const levels = history.levels.get(id) ?? [];
  const [first, last] = [levels[0], levels.at(-1)];
  if (first === undefined || last === undefined || first - last < 1e-4) return null;
  const at = levels.findIndex((level) => level <= (first + last) / 2);
  return at < 0 ? null : (history.times[at] ?? null);
}
