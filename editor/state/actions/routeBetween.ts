/** The line a new pipe takes between two ends when it is drawn at right angles.
 *
 * It leaves and arrives the way its ends look: a pump's stub up, an opening in a wall straight out, a
 * hanging end from above. A pipe out of water that aims below the rim goes over the rim first, and a run
 * out of a vessel falls a centimetre a metre, as a builder would lay it. */
import { drawnWidth, type PipeEnd, type Point, type Section } from "../../../hydraulics/index.ts";
import { bodyOf } from "../inOrder.ts";
import { groundOf } from "./newPart.ts";
import { evenPoint, round } from "./rounded.ts";

const overRim = 0.2;
const besideWall = 0.2;
const fall = 0.01;

interface Terminal {
  readonly at: Point;
  readonly looks: "up" | "left" | "right" | "any";
  /** the level a pipe has to reach before it may go sideways */
  readonly clears: number;
}

export function routeBetween(
  section: Section,
  from: PipeEnd,
  fromAt: Point,
  to: PipeEnd,
  toAt: Point,
): readonly Point[] {
  const a = terminal(section, from, fromAt, toAt);
  const b = terminal(section, to, toAt, fromAt);
  return route(a, b)
    .map(evenPoint)
    .filter((point, i, all) => !same(point, i === 0 ? fromAt : (all[i - 1] as Point)) && !same(point, toAt));
}

function route(a: Terminal, b: Terminal): Point[] {
  const [ax, az] = a.at;
  const [bx, bz] = b.at;
  const bSide = b.looks === "left" || b.looks === "right";
  const stand = b.looks === "left" ? bx - besideWall : bx + besideWall;
  if (a.looks === "left" || a.looks === "right") {
    const out = a.looks === "left" ? ax - besideWall : ax + besideWall;
    const ahead = a.looks === "left" ? bx < ax : bx > ax;
    if (bSide) {
      const x = ahead ? (ax + bx) / 2 : out;
      return ahead && stand !== bx
        ? [
            [x, az],
            [x, bz],
          ]
        : [
            [out, az],
            [out, Math.max(az, bz) + overRim],
            [stand, Math.max(az, bz) + overRim],
            [stand, bz],
          ];
    }
    if (!ahead)
      return [
        [out, az],
        [out, Math.max(az, bz) + overRim],
        [bx, Math.max(az, bz) + overRim],
      ];
    const run = Math.abs(bx - ax);
    return bz < az ? [[bx, az - round(Math.max(fall * run, 0.005))]] : [[bx, az]];
  }
  if (bSide) {
    const ahead = b.looks === "left" ? ax < bx : ax > bx;
    if (ahead && bz >= a.clears && (a.looks === "any" || bz >= b.clears)) return [[ax, bz]];
    const over = Math.max(a.clears, bz + overRim, a.looks === "any" ? bz : b.clears);
    return [
      [ax, over],
      [stand, over],
      [stand, bz],
    ];
  }
  const high = Math.max(a.clears, b.looks === "up" ? b.clears : bz);
  if (b.looks === "up")
    return [
      [ax, Math.max(high, bz)],
      [bx, Math.max(high, bz)],
    ];
  return bz >= a.clears
    ? [[ax, bz]]
    : [
        [ax, high],
        [bx, high],
      ];
}

function terminal(section: Section, end: PipeEnd, at: Point, other: Point): Terminal {
  if (!("part" in end)) return { at, looks: "any", clears: at[1] };
  const part = section.parts.get(end.part);
  if (part?.kind === "pump") {
    const body = bodyOf(section, part.in);
    return { at, looks: "up", clears: body ? Math.max(body.rimLevel, groundOf(section)) + overRim : part.z };
  }
  const body = bodyOf(section, end.part);
  if (!body) return { at, looks: "any", clears: at[1] };
  if (end.mouth === "side") {
    const left = at[0] < body.x + drawnWidth(body) / 2;
    // A line that a pump fills goes over the vessel's rim: only there can a breather break the siphon.
    return { at, looks: left ? "left" : "right", clears: body.kind === "vessel" ? body.rimLevel + 0.1 : at[1] };
  }
  const inside = other[0] > body.x && other[0] < body.x + drawnWidth(body);
  return { at, looks: "up", clears: inside ? at[1] : Math.max(body.rimLevel + overRim, at[1]) };
}

const same = (a: Point, b: Point): boolean => Math.hypot(a[0] - b[0], a[1] - b[1]) < 0.003;
