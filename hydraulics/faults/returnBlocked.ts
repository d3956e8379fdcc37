import { type PartId, partId, type Valve } from "../document/section.ts";
import { nameOf } from "../powerCut/words.ts";
import { withParts } from "./changed.ts";
import type { FaultKind } from "./faultKind.ts";
import { type Return, returnsOf } from "./returnsOf.ts";

/** Leaves over the mouth: a shut valve stands there in the copy. */
export const returnBlocked: FaultKind = {
  code: "returnBlocked",
  cases: ({ section, state }) =>
    returnsOf(state).map((one) => ({
      title: `${nameOf(section, one.pipe.pipe.id)} blocked`,
      part: one.pipe.pipe.id,
      section: withParts(section, plugOf(one)),
      run: "pumped",
    })),
};

// The dot keeps the id apart from every id that a file may hold.
const plugIn = (pipe: PartId): PartId => partId(`${pipe}.plug`);

const plugOf = ({ pipe, mouthAt }: Return): Valve => ({
  kind: "valve",
  id: plugIn(pipe.pipe.id),
  rank: Number.MAX_SAFE_INTEGER,
  on: { pipe: pipe.pipe.id, at: mouthAt },
  open: 0,
});
