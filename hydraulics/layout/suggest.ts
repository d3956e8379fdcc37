/** What a builder who has not decided yet may begin from, given what is decided. Rules of thumb (design notes, facts of
 * the trade): the pond once an hour while it is small, half as often when it is large; a vessel that passes about six
 * times its volume; a pump that lifts what has to be lifted and as much again for its hose. */
import type { LayoutAnswers } from "./answers.ts";

type Decided = { readonly [K in keyof LayoutAnswers]?: LayoutAnswers[K] | undefined };

/** m³ up to which a pond is turned over once an hour (500 US gal is 1.9, chosen larger here) */
const small = 4;
/** m³/h, the most that one pump of a garden gives */
const mostFlow = 20;

export function suggestAnswers(decided: Decided = {}): LayoutAnswers {
  const pondVolume = decided.pondVolume ?? 4;
  const hourly = Math.min(1.1 * Math.min(pondVolume, small) + 0.5 * Math.max(0, pondVolume - small), mostFlow);
  const pumpFlow = decided.pumpFlow ?? Math.max(hourly, 0.5) / 3600;
  const baseHeight = decided.baseHeight ?? 0;
  const distance = decided.distance ?? 1.2;
  return {
    pondVolume,
    // A pump delivers some eight tenths of what its box says.
    vesselVolume: decided.vesselVolume ?? Math.max((0.8 * pumpFlow * 3600) / 6, 0.1),
    baseHeight,
    distance,
    pumpFlow,
    pumpLift: decided.pumpLift ?? Math.ceil((2.2 + 1.2 * baseHeight + 0.05 * distance) * 2) / 2,
    sold: decided.sold ?? "metric",
  };
}
