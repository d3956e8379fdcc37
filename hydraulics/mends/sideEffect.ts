/** What else a mend changes, in words. */
import type { Assessed } from "../assess.ts";
import { levelWords } from "../powerCut/words.ts";

/** share of the flow that is worth a word */
const leastShare = 0.005;
/** m of a vessel's level that are worth a word */
const leastLevel = 0.01;

export function sideEffect(before: Assessed, after: Assessed): string {
  return [flowWords(before, after), ...levelsMoved(before, after), ...newFindings(before, after)].join("; ");
}

function flowWords(before: Assessed, after: Assessed): string {
  const was = pumped(before);
  const now = pumped(after);
  if (was <= 0) return now > 0 ? "water flows now" : "no flow, as before";
  const change = now / was - 1;
  if (Math.abs(change) < leastShare) return "flow unchanged";
  return `flow ${change > 0 ? "+" : "−"}${Math.max(1, Math.round(Math.abs(change) * 100))} %`;
}

function pumped({ running }: Assessed): number {
  if (!running.converged) return 0;
  let flow = 0;
  for (const pump of running.pumps.values()) flow += pump.flow;
  return flow > 1e-9 ? flow : 0;
}

function levelsMoved({ running: was, state }: Assessed, { running: now }: Assessed): readonly string[] {
  if (!was.converged || !now.converged) return [];
  return [...was.vessels].flatMap(([id, { level }]) => {
    const after = now.vessels.get(id)?.level ?? level;
    if (Math.abs(after - level) < leastLevel) return [];
    const name = state.network.bodies.get(id)?.body.label || id;
    return [`water of ${name} at ${levelWords(after)} instead of ${levelWords(level)}`];
  });
}

function newFindings(before: Assessed, after: Assessed): readonly string[] {
  const fresh = after.findings.filter(
    (now) =>
      now.severity === "warning" &&
      !before.findings.some((was) => was.code === now.code && was.parts[0] === now.parts[0]),
  );
  return [...new Set(fresh.map(({ code }) => code))].map((code) => `a warning comes: ${code.replaceAll("-", " ")}`);
}
