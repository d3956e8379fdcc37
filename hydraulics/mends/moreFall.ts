/** A near-level run given fall: what lies downstream of its mouth comes down, where its end leaves room. */
import { pipeLine } from "../document/geometry.ts";
import type { Point } from "../document/section.ts";
import { called } from "../findings/words.ts";
import { relaid } from "./relaid.ts";
import type { Remedy } from "./remedy.ts";

/** tried in turn: 2 % is usual */
const slopes = [0.02, 0.03, 0.05];
/** steeper than this a leg needs no help */
const steep = 0.2;

export const moreFall: Remedy = function* ({ section, assessed, finding }) {
  const [id] = finding.parts;
  const model = id === undefined ? undefined : assessed.state.network.pipes.get(id);
  const pipe = id === undefined ? undefined : section.parts.get(id);
  if (!model || pipe?.kind !== "pipe") return;
  const backwards = (model.stretches[0]?.link.Q ?? 0) < 0;
  const line = pipeLine(section, pipe);
  const down = backwards ? [...line].reverse() : [...line];
  // An arch over its mouth sets the vessel's level: brought down, it would let the water go.
  const mouth = down[0]?.[1] ?? 0;
  if (down.some(([, z]) => z > mouth + 1e-6)) return;
  for (const slope of slopes) {
    const led = withFall(down, slope);
    if (!led) continue;
    const route = led.slice(1, -1);
    yield {
      label: `Give ${called(section, pipe.id)} a fall of ${Math.round(slope * 100)} %`,
      section: relaid(section, pipe, { route: backwards ? route.reverse() : route }),
    };
  }
};

/** Null where the last point, which stays, would be left higher than the run before it. */
function withFall(down: readonly Point[], slope: number): Point[] | null {
  const led: Point[] = [];
  for (const [k, [x, z]] of down.entries()) {
    const before = led.at(-1);
    if (!before) {
      led.push([x, z]);
      continue;
    }
    const run = Math.abs(x - before[0]);
    const isNearLevel = run > 0 && Math.abs((down[k - 1] as Point)[1] - z) < steep * run;
    led.push([x, Number(Math.min(z, isNearLevel ? before[1] - slope * run : before[1]).toFixed(4))]);
  }
  const [end, stays] = [led.at(-1) as Point, down.at(-1) as Point];
  return stays[1] > end[1] + 1e-6 ? null : [...led.slice(0, -1), stays];
}
