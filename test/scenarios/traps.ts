/** Hand-made traps: each drawing with what a right tool says of it, reasoned from levels, never taken from a run.
 *
 * Unless a sentence says otherwise: pond 3 m × 2 m, water at −0.02, rim 0.06; tub 1 m × 0.7 m, rim 0.70; supply into
 * the tub's foot (axis 0.10, bore 34 mm: lowest point 0.083); return from its side (axis 0.55, bore 68 mm: it stops at
 * 0.516, so `rest` below); the running level is some 50 mm over that. `start` and `vents` are estimates and ratings by
 * hand, so that the judge can be tested without a solver; a run must find the same ratings, and levels within 60 mm. */
import type { HeldBy, VentRating, Verdict } from "../../hydraulics/powerCut/powerCut.ts";

export interface Trap {
  readonly file: string;
  /** why, in a sentence that a builder can check */
  readonly says: string;
  /** running levels of the vessels by hand, m */
  readonly start: Readonly<Record<string, number>>;
  readonly vents?: Readonly<Record<string, VentRating>>;
  /** pipes with a full-bore Froude number of 1 or more at the delivered flow */
  readonly fast?: readonly string[];
  readonly verdicts: Readonly<Record<string, Verdict>>;
  readonly heldBy: Readonly<Record<string, HeldBy>>;
  /** m, and what may be found over it: 1 mm, or what the columns in emptied legs add. Under it at most 1 mm, 3 mm where
   * the level hangs on the estimated start. */
  readonly finalLevel?: Readonly<Record<string, readonly [level: number, tolerance: number]>>;
  readonly pondLevel?: Readonly<Record<string, readonly [level: number, tolerance: number]>>;
  readonly pondOverflows?: readonly string[];
  readonly overtops?: readonly string[];
  /** m³, lost to the ground in the cut */
  readonly lost?: readonly [volume: number, tolerance: number];
}

/** Water out of the loop's legs lifts a tub that nothing empties any more:
 * 3.9 m of 34 mm pipe hold 3.6 L, 5 mm of tub. */
const columns = 0.006;
/** With the leg of a return of 68 mm besides. */
const moreColumns = 0.01;
const rest = 0.516;
const mouth = 0.083;
const running = { tub: 0.565 } as const;
const held = (level: number = rest, heldBy: HeldBy = "geometry", tolerance = 0.001) =>
  ({ verdicts: { tub: "held" }, heldBy: { tub: heldBy }, finalLevel: { tub: [level, tolerance] } }) as const;
const drains = (level: number = mouth, tolerance = columns) =>
  ({ verdicts: { tub: "drains" }, heldBy: { tub: "nothing" }, finalLevel: { tub: [level, tolerance] } }) as const;

export const traps: readonly Trap[] = [
  // --- loops and vents
  {
    file: "bottom-supply-no-vent",
    says: "A loop over the water is a siphon once it is full: without a vent it pulls the tub down to its mouth's lowest point, 0.10 less half of 34 mm.",
    start: running,
    ...drains(),
  },
  {
    file: "loop-top-vent",
    says: "The vent's tee stands at 0.80, over the water, and draws several times the air it needs: the siphon never starts.",
    start: running,
    vents: { breather: "ample" },
    ...held(),
  },
  {
    file: "vent-low-on-pond-leg",
    says: "A vent on the pump's riser at 0.30 lets in air only when the tub is down to 0.30.",
    start: running,
    vents: { breather: "ample" },
    ...drains(0.3, columns),
  },
  {
    file: "vent-high-on-pond-leg",
    says: "The same riser at 0.65 is over the tub's water: it does not matter on which leg the tee stands, only how high.",
    start: running,
    vents: { breather: "ample" },
    ...held(),
  },
  {
    file: "tee-5mm-over-rest",
    says: "Tee at 0.521: the siphon stops there, and the return runs on down to 0.516.",
    start: running,
    vents: { breather: "ample" },
    ...held(rest, "geometry", 0.002),
  },
  {
    file: "tee-5mm-under-rest",
    says: "Tee at 0.511: the siphon takes 5 mm more than the return would, which is no loss.",
    start: running,
    vents: { breather: "ample" },
    ...held(0.511, "geometry", columns),
  },
  {
    file: "tee-30mm-under-rest",
    says: "Tee at 0.486: 30 mm more than the return would take; over 20 mm counts as drained.",
    start: running,
    vents: { breather: "ample" },
    ...drains(0.486, columns),
  },
  {
    file: "vent-end-under-rim",
    says: "A riser that ends at 0.62 saves the tub (its tee is at 0.60, over the water) though it spills while the pump runs.",
    start: running,
    vents: { breather: "ample" },
    ...held(),
  },
  {
    file: "small-and-good-vent",
    says: "One good vent is enough: the pinhole beside it changes nothing.",
    start: running,
    vents: { pinhole: "tooSmall", breather: "ample" },
    ...held(),
  },
  {
    file: "two-small-vents",
    says: "Two pinholes of 3 mm, three tenths open, draw an eighth of the water each: neither is counted on.",
    start: running,
    vents: { breather: "tooSmall", "breather-b": "tooSmall" },
    ...drains(),
  },
  {
    file: "marginal-vent",
    says: "A vent of 4.5 mm, six tenths open, draws about half as much air as water flows: it may break the siphon, it is not counted on.",
    start: running,
    vents: { breather: "marginal" },
    ...drains(),
  },
  {
    file: "closed-vent",
    says: "A vent screwed shut is no vent.",
    start: running,
    vents: { breather: "tooSmall" },
    ...drains(),
  },
  {
    file: "low-line-vent",
    says: "No siphon to break: the line lies under the water all the way, the vent stands full and the tub drains back through the pump.",
    start: running,
    vents: { breather: "notUsed" },
    ...drains(),
  },
  // --- check valves and hand valves
  {
    file: "check-sound",
    says: "The low line would drain the tub; a sound check valve stands in the way.",
    start: running,
    ...held(rest, "movingPart"),
  },
  {
    file: "check-stuck",
    says: "The same with a pebble in the check valve: down to the mouth.",
    start: running,
    ...drains(),
  },
  {
    file: "check-spring",
    says: "A spring does not change what the valve holds.",
    start: running,
    ...held(rest, "movingPart"),
  },
  {
    file: "check-and-vent",
    says: "With the check valve taken out the vent still holds it: geometry.",
    start: running,
    vents: { breather: "ample" },
    ...held(),
  },
  {
    file: "throttle-shut",
    says: "A shut valve on the only low way: the pump delivers nothing, the tub stands where its return stops.",
    start: { tub: rest },
    ...held(),
  },
  {
    file: "low-vent-behind-check",
    says: "The check valve holds, but the vent behind it opens at 0.30, under the water: it runs out there onto the ground.",
    start: running,
    vents: { breather: "notUsed" },
    ...drains(0.3),
  },
  {
    file: "low-vent-over-pond",
    says: "The same vent over the pond: the tub drains as far, but nothing is lost.",
    start: running,
    vents: { breather: "notUsed" },
    ...drains(0.3),
    lost: [0, 1e-6],
  },
  {
    file: "standby-pump-open",
    says: "The check valve guards the running pump only; the water goes back through the spare that is off.",
    start: { tub: 0.545 },
    ...drains(),
  },
  {
    file: "two-pumps-no-vent",
    says: "Two pumps into one riser, a check valve on one: it goes back through the other.",
    start: running,
    ...drains(),
  },
  {
    file: "two-pumps",
    says: "Two pumps into one riser under the vent: one vent breaks both.",
    start: running,
    vents: { breather: "ample" },
    ...held(),
  },
  // --- flush pipes
  {
    file: "flush-ajar",
    says: "A flush valve a third open lets the tub down to the flush pipe's invert, 0.04 less half of 45 mm.",
    start: { tub: 0.55 },
    vents: { breather: "ample" },
    ...drains(0.0175),
  },
  {
    file: "flush-end-high",
    says: "An open flush hose hung up at 0.64, over the water, runs nothing.",
    start: running,
    vents: { breather: "ample" },
    ...held(),
  },
  {
    file: "flush-end-low",
    says: "Hung up at 0.40 it brims until the tub stands at 0.40.",
    start: { tub: 0.54 },
    vents: { breather: "ample" },
    ...drains(0.4),
  },
  // --- how the supply ends
  { file: "air-gap", says: "A supply that ends over the rim cannot pull water back.", start: running, ...held() },
  {
    file: "dip-16mm",
    says: "A supply that dips to 0.50 pulls until its end is uncovered, 16 mm under rest: no loss to speak of.",
    start: running,
    ...held(0.5, "geometry", columns),
  },
  {
    file: "dip-66mm",
    says: "Dipping to 0.45 it takes 66 mm more than the return would.",
    start: running,
    ...drains(0.45, columns),
  },
  // --- returns
  {
    file: "bottom-draw-slow",
    says: "An overflow drawn from the foot over an arch (invert 0.516) that ends in air and runs slowly (V/√(gD) about 0.3) is a weir, not a siphon.",
    start: running,
    vents: { breather: "ample" },
    ...held(),
  },
  {
    file: "bottom-draw-drowned",
    says: "With its end under water the arch can run full and pull: down to its mouth, 0.10 less half of 68 mm.",
    start: running,
    vents: { breather: "ample" },
    ...drains(0.066, moreColumns),
  },
  {
    file: "bottom-draw-fast",
    says: "In air, but 36 mm wide it carries the pump's flow at V/√(gD) above 1 and may pull: down to 0.10 less half of 36 mm.",
    start: { tub: 0.74 },
    vents: { breather: "ample" },
    fast: ["return"],
    ...drains(0.082, moreColumns),
  },
  {
    file: "bottom-draw-vented",
    says: "A 25 mm vent on the arch breaks that siphon: the arch is a weir again.",
    start: running,
    vents: { breather: "ample", "arch-vent": "ample" },
    // The arch as a weir ends lower than the vented siphon (0.55), so that run counts;
    // the vent is rated as the siphon's.
    ...held(),
  },
  {
    file: "bottom-draw-pinhole",
    says: "A 4 mm vent on an arch of 68 mm is too small by far.",
    start: running,
    vents: { breather: "ample", "arch-vent": "tooSmall" },
    ...drains(0.066, moreColumns),
  },
  {
    file: "standpipe",
    says: "A standpipe stops at its rim, 0.50, wherever its outlet lies.",
    start: { tub: 0.52 },
    vents: { breather: "ample" },
    ...held(0.5),
  },
  {
    file: "return-sag",
    says: "A sag behind the mouth does not lower the stop: the mouth's invert, 0.516, is the highest.",
    start: running,
    vents: { breather: "ample" },
    ...held(),
  },
  {
    file: "return-hump",
    says: "A hump with its invert at 0.586 holds the water that much higher.",
    start: { tub: 0.64 },
    vents: { breather: "ample" },
    ...held(0.586),
  },
  {
    file: "return-hump-drowned",
    says: "With the end under water the hump may siphon: down to the mouth's invert 0.516, 70 mm under the hump's.",
    start: { tub: 0.64 },
    vents: { breather: "ample" },
    ...drains(rest, moreColumns),
  },
  {
    file: "return-drowned",
    says: "A return that only falls stops at its mouth's invert, drowned outlet or not.",
    start: running,
    vents: { breather: "ample" },
    ...held(),
  },
  {
    file: "two-returns",
    says: "The lower of two returns decides where it rests: 0.40 less half of 25 mm.",
    start: { tub: 0.55 },
    vents: { breather: "ample" },
    ...held(0.3875),
  },
  {
    file: "tub-sill",
    says: "A sill at 0.60 and no pipe: it rests at the crest.",
    start: { tub: 0.615 },
    vents: { breather: "ample" },
    ...held(0.6),
  },
  {
    file: "overflow-to-pond",
    says: "No return: it stands at its rim while the pump runs and stays there.",
    start: { tub: 0.7 },
    vents: { breather: "ample" },
    ...held(0.7),
    overtops: ["tub"],
  },
  {
    file: "no-outlet",
    says: "A tub without an outlet runs over; when the pump stops it stands brim-full.",
    start: { tub: 0.7 },
    ...held(0.7),
    overtops: ["tub"],
  },
  { file: "nothing-connected", says: "Nothing can leave a tub without pipes.", start: { tub: 0.7 }, ...held(0.7) },
  // --- several vessels
  {
    file: "series",
    says: "The upper tub is fed over its rim and stops at its step pipe's invert, 1.266; the lower passes that water on and stops at its own, 0.516: both by geometry, the supply being an air gap.",
    start: { upper: 1.31, tub: 0.56 },
    verdicts: { upper: "held", tub: "held" },
    heldBy: { upper: "geometry", tub: "geometry" },
    finalLevel: { upper: [1.266, 0.001], tub: [rest, 0.002] },
  },
  {
    file: "parallel-tee-under-vent",
    says: "The branch leaves the riser under the vent: the first tub is held, the second drains past it.",
    start: { tub: 0.545, second: 0.54 },
    vents: { breather: "ample" },
    verdicts: { tub: "held", second: "drains" },
    heldBy: { tub: "geometry", second: "nothing" },
    finalLevel: { tub: [rest, 0.001], second: [mouth, 0.008] },
  },
  {
    file: "parallel-tee-past-vent",
    says: "Past the vent the two tubs are one siphon: the first follows the second down to the lower return's invert, 0.45 less half of 68 mm.",
    start: { tub: 0.54, second: 0.46 },
    vents: { breather: "ample" },
    verdicts: { tub: "drains", second: "held" },
    heldBy: { tub: "nothing", second: "geometry" },
    finalLevel: { tub: [0.416, 0.002] },
  },
  {
    file: "sump-level",
    says: "A sump at its pump's intake (−0.70) takes water until it stands as high as the pond: 6 m² × (−0.02 − L) = 0.5 m² × (L + 0.70) gives L = −0.0723, over the skimmer's invert (−0.10) and under the sump's rim.",
    start: { sump: -0.7 },
    verdicts: { sump: "held" },
    heldBy: { sump: "geometry" },
    finalLevel: { sump: [-0.0723, 0.002] },
    pondLevel: { pond: [-0.0723, 0.002] },
    lost: [0, 1e-6],
  },
  {
    file: "sump-floods",
    says: "With its rim at −0.30 the sump holds 0.20 m³ more, but the pond gives 0.48 m³ before the skimmer's mouth (−0.10) is dry: 0.28 m³ floods the ground.",
    start: { sump: -0.7 },
    verdicts: { sump: "held" },
    heldBy: { sump: "geometry" },
    finalLevel: { sump: [-0.3, 0.001] },
    pondLevel: { pond: [-0.1, 0.001] },
    overtops: ["sump"],
    lost: [0.28, 0.006],
  },
  // --- pumps
  {
    file: "dry-pump-low-line",
    says: "A pump beside the pond changes nothing: the tub drains back through it and its suction line.",
    start: running,
    ...drains(),
  },
  {
    file: "dry-pump-loop",
    says: "The same pump under a vented loop: held.",
    start: running,
    vents: { breather: "ample" },
    ...held(),
  },
  {
    file: "pump-off",
    says: "With the pump off the siphon has already run: the tub starts at its mouth and loses nothing in the cut.",
    start: { tub: mouth },
    ...held(mouth),
  },
  {
    file: "pump-in-air",
    says: "An intake above the water delivers nothing; the tub stands where its return stops.",
    start: { tub: rest },
    vents: { breather: "ample" },
    ...held(),
  },
  {
    file: "long-drop",
    says: "A crest 8.4 m up: the column would part by itself, but that is not counted on. The long legs hold 10 L.",
    start: running,
    ...drains(mouth, 0.016),
  },
  // --- ponds
  {
    file: "two-ponds",
    says: "The high pond's sheet, 20 mm on 4 m², and the tub's top water raise the low pond of 12 m² by some 10 mm: it has 80 mm to spare.",
    start: { tub: 1.115 },
    ...held(1.066),
    pondLevel: { high: [0.7, 0.001] },
    pondOverflows: [],
  },
  {
    file: "brim-full-pond",
    says: "The tub is held, but the 34 litres over its return need 28 mm in a pond of 1.2 m² that has 15 mm left.",
    start: running,
    vents: { breather: "ample" },
    ...held(),
    pondOverflows: ["pond"],
    pondLevel: { pond: [-0.005, 0.001] },
  },
  {
    file: "sunk-tub-siphon",
    says: "Rim at −0.10, pond at −0.02: the pond siphons through the stopped pump over the tub's rim until it is down to −0.10: 6 m² × 80 mm.",
    start: { tub: -0.1 },
    ...held(-0.1),
    pondLevel: { pond: [-0.1, 0.002] },
    overtops: ["tub"],
    lost: [0.48, 0.012],
  },
  {
    file: "sunk-tub-low-gap",
    says: "An end in air at −0.06 is over the tub's rim but under the pond's water: the pond runs out through it down to −0.06: 6 m² × 40 mm.",
    start: { tub: -0.1 },
    ...held(-0.1),
    overtops: ["tub"],
    pondLevel: { pond: [-0.06, 0.002] },
    lost: [0.24, 0.012],
  },
  {
    file: "sunk-tub-high-gap",
    says: "With its end at +0.05 nothing can run: the pond keeps its water.",
    start: { tub: -0.1 },
    ...held(-0.1),
    overtops: ["tub"],
    pondLevel: { pond: [-0.02, 0.001] },
  },
  {
    file: "leak-to-ground",
    says: "A hose teed into the riser with its end on the ground at −0.30: the tub is held by its vent, the pond runs out down to −0.30.",
    start: { tub: 0.545 },
    vents: { breather: "ample" },
    ...held(),
    pondLevel: { pond: [-0.3, 0.002] },
  },
  {
    file: "pond-sill-to-ground",
    says: "A sill at −0.03 lets the pond's top 10 mm and all that the tub gives onto the ground.",
    start: running,
    vents: { breather: "ample" },
    ...held(),
    pondLevel: { pond: [-0.03, 0.001] },
    lost: [0.095, 0.012],
  },
  {
    file: "levels-meet",
    says: "The supply's mouth lies under the pond's level: 0.7 m² × (0.565 − L) = 6 m² × (L + 0.02) gives L = 0.041.",
    start: running,
    ...drains(0.041, 0.003),
    pondLevel: { pond: [0.041, 0.003] },
  },
  {
    file: "levels-meet-sloped",
    says: "Sides of 1 in 2 leave 5.8 m² of pond there: L = 0.043.",
    start: running,
    ...drains(0.043, 0.003),
    pondLevel: { pond: [0.043, 0.003] },
  },
  {
    file: "levels-meet-media",
    says: "Stone up to 0.30 leaves four tenths of the water under it: 0.7 × 0.265 + 0.28 × (0.30 − L) = 6 × (L + 0.02) gives L = 0.024.",
    start: running,
    ...drains(0.024, 0.003),
    pondLevel: { pond: [0.024, 0.003] },
  },
];
