/** Water over the rim of a mouth that faces up (standpipe).
 *     low:  weir over the rim, Q = Cd·(2/3)·√(2g)·πD·h^1.5 · high: orifice, Q = Cd·(πD²/4)·√(2gh)
 *     Q m³/s · D m · h m over the rim · Cd 0.6 both
 * Holds for a square rim in still water; a swirl or a strainer asks for more. The two meet at h = 3D/8.
 * Source: design notes, section 6; published/orificeAndWeir.test.ts.
 * Ours: the higher of the two heads. */
import { boreArea } from "./circle.ts";
import { orificeHead, orificeHeadSlope } from "./orifice.ts";
import { weirHead, weirHeadSlope } from "./weir.ts";

export function upMouthHead(Q: number, D: number): number {
  if (!(Q > 0)) return 0;
  return Math.max(weirHead(Q, Math.PI * D), orificeHead(Q, boreArea(D)));
}

export function upMouthHeadSlope(Q: number, D: number): number {
  const rim = Math.PI * D;
  const byOrifice = Q > 0 && orificeHead(Q, boreArea(D)) > weirHead(Q, rim);
  return byOrifice ? orificeHeadSlope(Q, boreArea(D)) : weirHeadSlope(Q, rim);
}
