/** The two figures that a pump's box bears: m³/s at no head, m at no flow */
export interface Box {
  readonly maxFlow: number;
  readonly maxHead: number;
}

/** where on its box the duty stands */
const shareOfBox = 0.6;

/** The stand-in H = Hmax·(1 − (Q/Qmax)²) through the duty. */
export const boxFor = (flow: number, head: number): Box => ({
  maxFlow: flow / shareOfBox,
  maxHead: Math.max(head, 0.05) / (1 - shareOfBox ** 2),
});
