/** The bore of one pipe that stands for several.
 *     side by side:  D = (Σ Dᵢ^2.63)^(1/2.63)                    carries what they carry together, at the same fall
 *     in a row:      D = (Σ Lᵢ / Σ (Lᵢ/Dᵢ^4.8704))^(1/4.8704)     loses what they lose, at the same flow
 *                                                                     D, L m
 * Holds where friction rules: other losses are left out.
 * Source: from hf ∝ L·Q^1.852/D^4.8704 (Hazen and Williams with one C; design notes, section 2) Q ∝ D^(4.8704/1.852).
 * Ours: taken for gravity pipes too. Part full by Manning Q ∝ D^2.67, under inlet control D^2.5 (section 6); by their
 * areas, D², two equal pipes would pass for a quarter more than they carry. */
const byLoss = 4.8704;
const byFlow = byLoss / 1.852;

/** Needs D > 0 and one pipe or more. */
export const boreBeside = (bores: readonly number[]): number =>
  bores.reduce((sum, bore) => sum + bore ** byFlow, 0) ** (1 / byFlow);

export interface Piece {
  readonly bore: number;
  /** m, over 0 */
  readonly length: number;
}

/** Needs D > 0 and one piece or more. */
export function boreAlong(pieces: readonly Piece[]): number {
  let length = 0;
  let loss = 0;
  for (const piece of pieces) {
    length += piece.length;
    loss += piece.length / piece.bore ** byLoss;
  }
  return (length / loss) ** (1 / byLoss);
}
