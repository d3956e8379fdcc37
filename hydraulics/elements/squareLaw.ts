import type { Loss } from "./element.ts";

/** The shape of every fitting's loss.
 *     h = r·Q·|Q|        h m · Q m³/s · r s²/m⁵, K/(2g·A²) of a fitting on a bore of area A m²
 * Holds for turbulent flow. Source: Bernoulli, K·V²/2g; worked examples in published/minorLoss.test.ts.
 * Ours: flat at rest, so below the flow that loses 1 nm of head the curve gives way to its chord (as in
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
