/** The lines by which a vessel can run empty: full lines that end under its water without an ample vent above it,
 * and overflows drawn from below. */
import type { Assessed } from "../assess.ts";
import type { PartId, Vent, Vessel } from "../document/section.ts";
import { linesOf, ventsOn } from "../findings/linesOf.ts";
import { isLineShut, piecesOf } from "../network/chains.ts";
import type { Opening, PipeModel } from "../network/network.ts";
import { bottomDraws } from "../powerCut/bottomDraw.ts";

export interface UnsafeLine {
  readonly pipe: PipeModel;
  readonly vessel: Vessel;
  readonly opening: Opening;
  /** which end of the pipe opens into the vessel */
  readonly side: "from" | "to";
  /** the vessel's running water */
  readonly level: number;
  readonly crest: number;
  /** vents that stand on any piece of the line */
  readonly vents: readonly Vent[];
}

export function unsafeLines({ state, powerCut }: Assessed, id: PartId): readonly UnsafeLine[] {
  const body = state.network.bodies.get(id)?.body;
  const cut = powerCut?.vessels.get(id);
  if (body?.kind !== "vessel" || !powerCut || !cut) return [];
  const level = cut.startLevel;
  const siphons = bottomDraws(state).flatMap(({ pipe, crestLevel }) => {
    const model = state.network.pipes.get(pipe);
    return model ? [{ pipe: model, crest: crestLevel }] : [];
  });
  return [...linesOf(state, id), ...siphons].flatMap(({ pipe, crest }): UnsafeLine[] => {
    const side = (["to", "from"] as const).find((end) => {
      const there = pipe[end];
      return there.kind === "body" && there.opening.body === id;
    });
    const end = side ? pipe[side] : undefined;
    if (!side || end?.kind !== "body" || end.opening.edge >= level || isLineShut(state.network, pipe)) return [];
    const models = ventsOn(state, { pieces: piecesOf(state.network, pipe) });
    const isSafe = models.some(
      ({ vent, teeLevel }) => teeLevel >= level && powerCut.vents.get(vent.id)?.rating === "ample",
    );
    if (isSafe) return [];
    return [{ pipe, vessel: body, opening: end.opening, side, level, crest, vents: models.map(({ vent }) => vent) }];
  });
}
