/** What each sample teaches, in the gallery's order: what to look at, and what the program must say of it. The gallery
 * shows it, `test/samples` holds the program to it. All of them are invented. */
export interface Lesson {
  /** of the drawing beside this file */
  readonly file: string;
  readonly lesson: string;
  readonly look: string;
  readonly says: {
    readonly verdict: "geometry" | "a moving part" | "drains" | "fails";
    /** codes of findings that must be there */
    readonly findings: readonly string[];
    /** codes that must not */
    readonly without: readonly string[];
  };
  /** the units it is drawn in; metric unless said */
  readonly units?: "us";
}

export const lessons: readonly Lesson[] = [
  {
    file: "courtyard-bog.json",
    lesson: "A loop over the water with a breather holds the bed without any moving part.",
    look: "The breather's tee at +0.660 stands over the water at +0.582. Drag it under the water and read the verdict.",
    says: { verdict: "geometry", findings: ["air-gulping"], without: ["vessel-drains", "vent-below-water"] },
  },
  {
    file: "no-breather.json",
    lesson: "A hose over the rim is a siphon as soon as the pump stops.",
    look: "Play the power cut: the flow in the supply turns round. Then put a breather on the top of the loop.",
    says: { verdict: "drains", findings: ["vessel-drains"], without: ["vent-too-small"] },
  },
  {
    file: "pinprick-breather.json",
    lesson: "A breather has to pass enough air; a small hole in the right place does not.",
    look: "The slip of the breather says which bore would be ample. Set it, and the verdict turns.",
    says: { verdict: "drains", findings: ["vessel-drains", "vent-too-small"], without: ["vent-below-water"] },
  },
  {
    file: "behind-the-shed.json",
    lesson: "Where the supply comes in low, a flap is all that holds the water.",
    look: "Faults: the flap kept open by a leaf drains the trough. No breather can help, for nothing rises over the water.",
    says: { verdict: "a moving part", findings: ["held-by-moving-part"], without: ["vessel-drains"] },
  },
  {
    file: "narrow-return.json",
    lesson: "A return falls by itself and has to be wider than the supply that is pushed.",
    look: "The bed runs over its rim. Try the return in the next larger sizes until it carries half as much again.",
    says: {
      verdict: "fails",
      findings: ["overtops-running", "return-smaller-than-supply"],
      without: ["vessel-drains"],
    },
  },
  {
    file: "drawn-from-below.json",
    lesson: "An overflow drawn from below siphons its vessel empty unless air gets in at its top.",
    look: "The return rises to +0.66 and still drains to +0.16. A breather on its highest run holds the water there.",
    says: { verdict: "drains", findings: ["vessel-drains", "may-siphon"], without: ["overtops-running"] },
  },
  {
    file: "spilling-wall.json",
    lesson: "A sill carries much water over a small rise of the level.",
    look: "The water stands 14 mm over the sill at the full flow. Halve the sill's width and see what that costs.",
    says: { verdict: "geometry", findings: ["formula-range"], without: ["vessel-drains", "overtops-running"] },
  },
  {
    file: "two-steps.json",
    lesson: "Two beds in series: the upper spills into the lower, and each keeps its own water.",
    look: "After the power cut both fall only to their crest and mouth. The pond takes up what runs down.",
    says: { verdict: "geometry", findings: ["no-flush"], without: ["vessel-drains", "overtops-in-cut"] },
  },
  {
    file: "side-by-side.json",
    lesson: "Two tubs on one pump share the flow as their pipes allow, not by halves.",
    look: "Open the balancing valve fully: the first tub then takes nearly all of it.",
    says: { verdict: "geometry", findings: ["no-flush"], without: ["vessel-drains", "overtops-running"] },
  },
  {
    file: "two-pumps.json",
    lesson: "Two pumps on one line give less than the sum of what each gives alone.",
    look: "Set the speed of the night pump to 0: the flow falls by less than that pump gave.",
    says: { verdict: "geometry", findings: ["formula-range"], without: ["vessel-drains", "pump-shut-off"] },
  },
  {
    file: "pump-pit.json",
    lesson: "A pump beside the pond, below its water, fills itself; two figures on a box make an estimate.",
    look: "The slip of the pump shows the range that two figures leave. Points of the maker's curve narrow it.",
    says: { verdict: "geometry", findings: ["stand-in-curve"], without: ["pump-must-be-primed", "vessel-drains"] },
  },
  {
    file: "fish-pond.json",
    lesson: "A supply that ends in air can not siphon, and a standpipe sets the level from inside the bed.",
    look: "Follow the supply to its end over the rim. The standpipe's mouth at +0.78 is where the water comes to rest.",
    says: { verdict: "geometry", findings: ["turnover-off"], without: ["vessel-drains", "may-siphon"] },
  },
  {
    file: "backyard-feet.json",
    lesson: "The same rules in feet, inches and gallons, with pipe sizes as they are sold there.",
    look: "Switch between US and metric on the upper edge: what is shown changes, the drawing does not.",
    says: { verdict: "geometry", findings: ["vessel-small"], without: ["vessel-drains"] },
    units: "us",
  },
];
