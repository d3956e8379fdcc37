/** What a builder is asked before the first line is drawn, and how far the answers may go. */
import type { Result } from "../document/section.ts";

/** SI. */
export interface LayoutAnswers {
  /** m³ of water in the pond */
  readonly pondVolume: number;
  /** m³, the filter vessel to its rim, stone included */
  readonly vesselVolume: number;
  /** m, the vessel's base over the ground at the pond */
  readonly baseHeight: number;
  /** m from the pond's edge to the vessel */
  readonly distance: number;
  /** m³/s and m, as on the pump's box: both at the ends of its curve */
  readonly pumpFlow: number;
  readonly pumpLift: number;
  /** sizes as sold: by the outside in mm, or inch pipe */
  readonly sold: "metric" | "inch";
}

/** No plan is drawn: what stands against it, and which answers it hangs on. */
export interface LayoutRefusal {
  readonly answers: readonly (keyof LayoutAnswers)[];
  /** one sentence, in metres and litres */
  readonly why: string;
}

export type AnswerKey = Exclude<keyof LayoutAnswers, "sold">;

interface Bounds {
  readonly least: number;
  readonly most: number;
  /** in the words of its refusal */
  readonly says: string;
}

/** Chosen here, no source: what one pump, one vessel and returns of sizes that are sold can do in a garden. */
export const answerBounds: Readonly<Record<AnswerKey, Bounds>> = {
  pondVolume: { least: 0.3, most: 200, says: "A pond of 300 L to 200 m³ is drawn here." },
  vesselVolume: { least: 0.05, most: 40, says: "A vessel of 50 L to 40 m³ is drawn here." },
  baseHeight: { least: 0, most: 5, says: "The vessel's base may stand from 0 to 5 m over the ground." },
  distance: { least: 0.4, most: 60, says: "The vessel may stand from 0.4 to 60 m off the pond's edge." },
  pumpFlow: { least: 5e-5, most: 0.01, says: "A pump of 180 to 36,000 L/h is drawn here." },
  pumpLift: { least: 0.5, most: 30, says: "A pump that lifts 0.5 to 30 m is drawn here." },
};

const keys = Object.keys(answerBounds) as AnswerKey[];

export function withinBounds(answers: LayoutAnswers): Result<LayoutAnswers, LayoutRefusal> {
  for (const key of keys) {
    const { least, most, says } = answerBounds[key];
    if (!(answers[key] >= least && answers[key] <= most)) return { ok: false, error: { answers: [key], why: says } };
  }
  return { ok: true, value: answers };
}
