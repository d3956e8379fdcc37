/** Lines at 45° inside a closed outline, as one path (ISO 128-50: earth and other cut faces). */
import type { Mm } from "./obstacles.ts";

/** `apart` is the distance between two lines, mm. */
export function hatch(outline: readonly Mm[], apart: number): string {
  // Turned so that the hatch runs along u: v = const.
  const turned = outline.map(([x, y]): Mm => [(x - y) * Math.SQRT1_2, (x + y) * Math.SQRT1_2]);
  const low = Math.min(...turned.map(([, v]) => v));
  const high = Math.max(...turned.map(([, v]) => v));
  if (!(high - low < 20_000)) return "";
  let data = "";
  for (let v = Math.ceil(low / apart) * apart; v < high; v += apart) {
    const cuts = crossings(turned, v);
    for (let i = 0; i + 1 < cuts.length; i += 2)
      data += `M${back(cuts[i] as number, v)}L${back(cuts[i + 1] as number, v)}`;
  }
  return data;
}

function crossings(outline: readonly Mm[], v: number): readonly number[] {
  const found: number[] = [];
  for (let i = 0; i < outline.length; i++) {
    const [ua, va] = outline[i] as Mm;
    const [ub, vb] = outline[(i + 1) % outline.length] as Mm;
    if (va <= v !== vb <= v) found.push(ua + ((v - va) / (vb - va)) * (ub - ua));
  }
  return found.sort((a, b) => a - b);
}

const n = (value: number): string => String(Math.round(value * 100) / 100);
const back = (u: number, v: number): string => `${n((u + v) * Math.SQRT1_2)} ${n((v - u) * Math.SQRT1_2)}`;
