/** How large a label is, where it lies at a spot, and the leader that ties it to what it speaks of. In mm of paper. */
import type { Rect } from "../sheet/transform.ts";
import type { LabelLine, LabelRequest, Spot } from "./labelRequest.ts";
import type { Mm } from "./obstacles.ts";
import { textWidth } from "./textWidth.ts";

const gap = 1.1;
export const pitch = 1.2;

export interface Size {
  readonly width: number;
  readonly height: number;
}

export const levelMarkWidth = 4.1;
export const apartUsually = 2.2;
export const lineWidth = ({ runs, size, reserve, apart = apartUsually }: LabelLine): number =>
  Math.max(
    runs.reduce((sum, run) => sum + textWidth(run.text, size, run.weight), 0) + apart * (runs.length - 1),
    reserve ?? 0,
  );

export const grown = ({ x, y, width, height }: Rect, by: number): Rect => ({
  x: x - by,
  y: y - by,
  width: width + 2 * by,
  height: height + 2 * by,
});

const markWidth = (request: LabelRequest): number =>
  (request.level ? levelMarkWidth : 0) + (request.number === undefined ? 0 : 4.6);

export function measure(lines: readonly LabelLine[], request: LabelRequest): Size {
  const widest = Math.max(...lines.map(lineWidth), 0);
  const first = lines[0]?.size ?? 0;
  const last = lines.at(-1)?.size ?? 0;
  const steps = lines.slice(1).reduce((sum, line) => sum + line.size * pitch, 0);
  // From the first line's capitals to the last line's descenders.
  return { width: widest + markWidth(request), height: 0.72 * first + steps + 0.22 * last };
}

export function boxAt({ at, across, down }: Spot, { width, height }: Size): Rect {
  return {
    x: across === 1 ? at[0] + gap : across === 0 ? at[0] - width / 2 : at[0] - gap - width,
    y: down === 1 ? at[1] + gap : down === 0 ? at[1] - height / 2 : at[1] - gap - height,
    width,
    height,
  };
}

/** From the point to the label's nearest side, or under a level as its shelf. */
export function leaderOf({ at, across, leadFrom }: Spot, box: Rect, level: boolean): readonly Mm[] {
  if (level) {
    const shelfEnd: Mm = [across === -1 ? box.x : box.x + box.width, at[1]];
    return leadFrom ? [leadFrom, at, shelfEnd] : [at, shelfEnd];
  }
  if (!leadFrom) return [];
  const x = Math.min(Math.max(leadFrom[0], box.x), box.x + box.width);
  const y = Math.min(Math.max(leadFrom[1], box.y), box.y + box.height);
  // Ends a little short of the letters.
  const away = Math.hypot(leadFrom[0] - x, leadFrom[1] - y);
  if (away < 2) return [];
  const back = 0.6 / away;
  return [leadFrom, [x + (leadFrom[0] - x) * back, y + (leadFrom[1] - y) * back]];
}
