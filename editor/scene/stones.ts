/** Media drawn at grain size, quietly: a bounded number of stones, the same for the same vessel every time. */
import type { Rect } from "../sheet/transform.ts";

/** More than this says no more and costs paint. */
const most = 150;

/** Seeded by the part's id, so that stones do not dance when something else changes. */
export function seeded(text: string): () => number {
  let state = 2166136261;
  for (let i = 0; i < text.length; i++) state = Math.imul(state ^ text.charCodeAt(i), 16777619);
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

export interface Stones {
  /** millimetres from the layer's upper left corner */
  readonly data: string;
  /** too small or too many to outline: dots */
  readonly asDots: boolean;
}

/** Stones of a layer as one path. `grain` in millimetres of paper. */
export function stones(size: Pick<Rect, "width" | "height">, grain: number, seed: string): Stones {
  const random = seeded(seed);
  const asDots = grain < 0.7;
  // Where true stones would be too many they keep their size and stand wider apart.
  const full = (size.width * size.height) / Math.max(grain, 0.35) ** 2;
  const thin = Math.max(1, Math.sqrt(full / most));
  const step = Math.max(grain, 0.35) * 1.04 * thin;
  let data = "";
  let row = 0;
  for (let y = step / 2; y < size.height; y += step * 0.92, row++) {
    for (let x = (row % 2 === 0 ? 0.5 : 1) * step; x < size.width; x += step) {
      const rx = asDots ? 0.16 : (grain / 2) * (0.72 + 0.24 * random());
      const ry = asDots ? rx : rx * (0.72 + 0.2 * random());
      const cx = within(x + (random() - 0.5) * step * 0.18, rx, size.width);
      const cy = within(y + (random() - 0.5) * step * 0.14, ry, size.height);
      data += ellipse(cx, cy, rx, ry, (random() - 0.5) * 50);
    }
  }
  return { data, asDots };
}

const within = (at: number, half: number, width: number): number =>
  Math.min(Math.max(at, half), Math.max(width - half, half));
const n = (value: number): string => String(Math.round(value * 100) / 100);

function ellipse(x: number, y: number, rx: number, ry: number, turn: number): string {
  const [c, s] = [Math.cos((turn * Math.PI) / 180) * rx, Math.sin((turn * Math.PI) / 180) * rx];
  const arc = `A${n(rx)} ${n(ry)} ${n(turn)} 1 1`;
  return `M${n(x - c)} ${n(y - s)}${arc} ${n(x + c)} ${n(y + s)}${arc} ${n(x - c)} ${n(y - s)}Z`;
}
