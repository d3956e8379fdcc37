/** Where a pipe's figures may stand. */
import type { LabelRequest, Spot } from "./labelRequest.ts";
import type { Mm } from "./obstacles.ts";

/** Along its longest stretches, over and under, left and right; then away from it on a leader.
 * @param half half its drawn width, mm */
export function spotsAlong(
  line: readonly Mm[],
  half: number,
): Pick<LabelRequest, "spots" | "further" | "furtherNamed"> {
  const stretches = line
    .slice(1)
    .map((b, i): Stretch => ({ a: line[i] as Mm, b, name: String(i) }))
    .sort((p, q) => weightOf(q) - weightOf(p))
    .slice(0, mostStretches);
  return {
    spots: stretches.flatMap((stretch) =>
      [0.5, 0.35, 0.65, 0.2, 0.8].flatMap((share) => spotsOn(stretch, share, half)),
    ),
    further: () =>
      [5, 9, 14, 20, 27].flatMap((away) =>
        stretches
          .slice(0, 3)
          .flatMap((stretch) => [0.5, 0.3, 0.7, 0.15, 0.85].flatMap((share) => spotsOff(stretch, share, half, away))),
      ),
    furtherNamed: (name) => {
      const [of, share, away] = name.split(" ");
      const stretch = stretches.slice(0, 3).find((one) => one.name === of);
      return stretch && spotsOff(stretch, Number(share), half, Number(away)).find((spot) => spot.name === name);
    },
  };
}

interface Stretch {
  readonly a: Mm;
  readonly b: Mm;
  /** its number along the pipe: which is the longest changes while the pipe is dragged */
  readonly name: string;
}

const mostStretches = 8;
const isFlat = ({ a, b }: Pick<Stretch, "a" | "b">): boolean => Math.abs(b[0] - a[0]) >= Math.abs(b[1] - a[1]);

/** On both sides of the pipe. One that slopes rises into its words: they keep further off. */
function spotsOn(stretch: Stretch, share: number, half: number): readonly Spot[] {
  const [x, y] = mix(stretch.a, stretch.b, share);
  const rise = Math.min(Math.abs(stretch.b[0] - stretch.a[0]), Math.abs(stretch.b[1] - stretch.a[1]), 6);
  const off = half + rise * 0.35;
  const name = (side: string): string => `${stretch.name} ${share} ${side}`;
  return isFlat(stretch)
    ? [
        { at: [x, y - off], across: 0, down: -1, name: name("before") },
        { at: [x, y + off], across: 0, down: 1, name: name("behind") },
      ]
    : [
        { at: [x + off, y], across: 1, down: 0, name: name("before") },
        { at: [x - off, y], across: -1, down: 0, name: name("behind") },
      ];
}

/** Off it on a leader. */
function spotsOff(stretch: Stretch, share: number, half: number, away: number): readonly Spot[] {
  const off = half + away;
  const at = mix(stretch.a, stretch.b, share);
  const [x, y] = at;
  const name = (side: string): string => `${stretch.name} ${share} ${away} ${side}`;
  if (!isFlat(stretch)) {
    return [
      { at: [x + off, y], across: 1, down: 0, leadFrom: at, name: name("before") },
      { at: [x - off, y], across: -1, down: 0, leadFrom: at, name: name("behind") },
    ];
  }
  return [0, 8, -8].flatMap((dx): readonly Spot[] => [
    { at: [x + dx, y - off], across: 0, down: -1, leadFrom: at, name: name(dx === 0 ? "before" : `before ${dx}`) },
    { at: [x + dx, y + off], across: 0, down: 1, leadFrom: at, name: name(dx === 0 ? "behind" : `behind ${dx}`) },
  ]);
}

/** A level stretch reads best, and out of the water. */
const weightOf = (stretch: Stretch): number =>
  Math.hypot(stretch.b[0] - stretch.a[0], stretch.b[1] - stretch.a[1]) * (isFlat(stretch) ? 1.6 : 1);
const mix = (a: Mm, b: Mm, share: number): Mm => [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
