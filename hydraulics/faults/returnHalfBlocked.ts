import { nameOf } from "../powerCut/words.ts";
import { withParts } from "./changed.ts";
import type { FaultKind } from "./faultKind.ts";
import { returnsOf } from "./returnsOf.ts";

/** Growth on the wall leaves half of the bore's area, over the whole length. */
export const returnHalfBlocked: FaultKind = {
  code: "returnHalfBlocked",
  cases: ({ section, state }) =>
    returnsOf(state).map(({ pipe: { pipe } }) => ({
      title: `${nameOf(section, pipe.id)} half blocked`,
      part: pipe.id,
      section: withParts(section, { ...pipe, bore: pipe.bore * Math.SQRT1_2 }),
      run: "pumped",
    })),
};
