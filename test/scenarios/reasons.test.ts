/** Why a vessel drains: the way by which its water truly went, in sentences that a builder can read. */
import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { PartId } from "../../hydraulics/document/section.ts";
import { simulatePowerCut } from "../../hydraulics/powerCut/simulate.ts";
import { solveSteady } from "../../hydraulics/solver/steady.ts";
import { readDrawing } from "./readDrawing.ts";

function reasonsOf(file: string): ReadonlyMap<PartId, string> {
  const drawing = readDrawing(file);
  const state = solveSteady(drawing);
  if (!state.solved.converged) return new Map();
  return new Map([...simulatePowerCut(drawing, state).vessels].map(([id, { reason }]) => [id, reason]));
}
const reason = (trap: string, vessel = "tub"): string => reasonsOf(`./traps/${trap}.json`).get(vessel as PartId) ?? "";

describe("the reason names the true way out", { timeout: 60_000 }, () => {
  it("an open flush, not the supply that a vent guards", () => {
    expect(reason("flush-ajar")).toMatch(/^Flush valve is open, and purge lets the water out/);
    expect(reason("flush-ajar")).not.toContain("siphon");
  });

  it("a vent whose open end lies under the water, with its level", () => {
    expect(reason("low-vent-over-pond")).toMatch(/^Breather opens at \+0\.300, under the water of Tub .* into Pond\./);
    expect(reason("low-vent-behind-check")).toContain("onto the ground");
  });

  it("the other tub, past the vent, with the crest of the way there", () => {
    // The branch between the two rises to +0.90; the supply's own top at +0.80 has the vent.
    expect(reason("parallel-tee-past-vent")).toMatch(/rise to \+0\.900.* siphon into Second tub/);
    expect(reason("parallel-tee-past-vent")).toContain("level with Second tub");
  });

  it("a suction line before a pump beside the water counts as the stopped pump's", () => {
    expect(reason("dry-pump-low-line")).toContain("runs back through the stopped pump into Pond");
  });
});

describe("every reason", { timeout: 120_000 }, () => {
  const traps = readdirSync(new URL("./traps", import.meta.url)).filter((name) => name.endsWith(".json"));

  it("starts each sentence with a capital, holds a level, and is no longer than four sentences", () => {
    const faults = traps.flatMap((file) =>
      [...reasonsOf(`./traps/${file}`).values()].flatMap((said) => {
        const sentences = said.split(/(?<=\.) (?=\S)/);
        const small = sentences.filter((sentence) => /^\p{Ll}/u.test(sentence));
        return [
          ...small.map((sentence) => `${file}: ${sentence}`),
          ...(/[+−±]\d\.\d{3}/.test(said) ? [] : [`${file} has no level: ${said}`]),
          ...(sentences.length <= 4 ? [] : [`${file}, ${sentences.length} sentences: ${said}`]),
        ];
      }),
    );

    expect(faults).toEqual([]);
  });
});
