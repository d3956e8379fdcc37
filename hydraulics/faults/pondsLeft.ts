/** What is left in the ponds, and when the first of them was at half. */
import type { PartId, Pond, Section } from "../document/section.ts";
import { waterVolume } from "../document/volumes.ts";
import { partsOf } from "./changed.ts";
import type { Followed } from "./follow.ts";

export interface PondLeft {
  readonly pond: Pond;
  /** m³ */
  readonly volume: number;
  /** of what the drawing has in it, 0…1 */
  readonly share: number;
  readonly depth: number;
  /** depth in the drawing */
  readonly drawnDepth: number;
  readonly level: number;
}

/** The pond left with the least share first. Ponds that the drawing has no water in are left out. */
export function pondsLeft(section: Section, { finalLevels }: Pick<Followed, "finalLevels">): readonly PondLeft[] {
  return partsOf(section, "pond")
    .filter((pond) => waterVolume(pond, pond.waterLevel) > 0)
    .map((pond) => {
      const level = finalLevels.get(pond.id) ?? pond.waterLevel;
      const volume = waterVolume(pond, level);
      const share = Math.min(1, volume / waterVolume(pond, pond.waterLevel));
      const drawnDepth = pond.waterLevel - pond.bedLevel;
      return { pond, volume, share, level, depth: Math.max(0, level - pond.bedLevel), drawnDepth };
    })
    .sort((a, b) => a.share - b.share);
}

/** s until the first pond holds half of what the drawing has in it; null where none comes to that. */
export function timeToHalf(section: Section, { history }: Pick<Followed, "history">): number | null {
  const times = partsOf(section, "pond").flatMap((pond) => halved(pond, history));
  return times.length > 0 ? Math.min(...times) : null;
}

function halved(pond: Pond, { times, levels }: Followed["history"]): number[] {
  const half = waterVolume(pond, pond.waterLevel) / 2;
  const volumes = (levels.get(pond.id as PartId) ?? []).map((level) => waterVolume(pond, level));
  const k = volumes.findIndex((volume) => volume <= half);
  if (half <= 0 || k < 0) return [];
  if (k === 0) return [0];
  const [before, after] = [volumes[k - 1] as number, volumes[k] as number];
  const [start, end] = [times[k - 1] as number, times[k] as number];
  return [start + ((end - start) * (before - half)) / (before - after)];
}
