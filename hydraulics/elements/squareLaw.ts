import type { Loss } from "./element.ts";

/** r·Q·|Q|, the shape of every fitting's loss. r in s²/m⁵.
 * Flat at rest, so below the flow that loses 1 nm of head the curve gives way to its chord (as in
 * hazenWilliams.ts). With r = 0 there is no loss and no slope: such a part is joined, not built. */
export function squareLaw(r: number): Loss {
  const knee = r > 0 ? Math.sqrt(1e-9 / r) : 0;
  const belowKnee = (r * knee * knee * knee) / 6;
  return {
    loss: (Q) => r * Math.max(Math.abs(Q), knee) * Q,
    slope: (Q) => (Math.abs(Q) > knee ? 2 * r * Math.abs(Q) : r * knee),
    content: (Q) => (Math.abs(Q) > knee ? (r * Math.abs(Q) * Q * Q) / 3 + belowKnee : (r * knee * Q * Q) / 2),
    linear: (Q, into) => {
      const flow = Math.abs(Q);
      const each = r * Math.max(flow, knee);
      into.loss = each * Q;
      into.slope = flow > knee ? 2 * each : each;
    },
    numbers: { shape: "power", r, power: 1, knee },
  };
}
