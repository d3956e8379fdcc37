/** Why a vessel holds its water or does not, in two or three sentences with the levels in them. */
import { valveRole } from "../document/defaults.ts";
import { listed } from "../document/listed.ts";
import type { PartId, Section, Vessel } from "../document/section.ts";
import type { Network, PipeModel, VentModel } from "../network/network.ts";
import type { CutRun } from "./cut.ts";
import type { CutVent, HeldBy, Verdict } from "./powerCut.ts";
import { type Goal, isMouthIn, type WayOut, wayOut } from "./wayOut.ts";
import { levelWords, nameOf, started } from "./words.ts";

export interface Case {
  readonly section: Section;
  readonly vessel: Vessel;
  readonly verdict: Verdict;
  readonly heldBy: HeldBy;
  readonly startLevel: number;
  readonly finalLevel: number;
  readonly restingLevel: number;
  readonly ratings: ReadonlyMap<PartId, CutVent>;
  readonly cut: CutRun;
  /** with every check valve open; null where there is none */
  readonly open: CutRun | null;
  readonly siphons: ReadonlySet<PartId>;
}

export function reasonOf(one: Case): string {
  if (one.verdict === "drains") return drains(one);
  return one.heldBy === "movingPart" ? byMovingPart(one) : byGeometry(one);
}

const said = (one: Case, id: PartId): string => nameOf(one.section, id);

/** m under which water that leaves counts as lost, not as run off as usual */
const lost = 1e-3;
/** m within which two bodies stand level */
const level = 5e-3;

function drains(one: Case): string {
  const way = wayOut(one.cut, one.vessel.id, Math.min(one.restingLevel, one.startLevel) - lost);
  if (!way) return `${howFar(one, null)} Water leaves it below its outlet, and nothing stands in the way.`;
  const vents = way.vents.flatMap((vent) => {
    const rating = one.ratings.get(vent.vent.id);
    return rating && !(way.goal.kind === "vent" && way.goal.vent === vent) ? [aboutVent(one, vent, rating)] : [];
  });
  return [byWay(one, way), ...new Set(vents), howFar(one, way.goal)].map(started).join(" ");
}

function byWay(one: Case, way: WayOut): string {
  const { first, goal, crest } = way;
  const name = said(one, one.vessel.id);
  const pipe = said(one, first.pipe.id);
  const into = goalWords(one, goal);
  if (one.siphons.has(first.pipe.id))
    return `${pipe} draws from below, at ${levelWords(way.edge)}, and may run full: it then pulls like a siphon.`;
  if (first.runs === "gravity") {
    const open = first.valves.find(({ valve }) => valveRole(valve) === "flush");
    const gate = open ? `${said(one, open.valve.id)} is open, and ${pipe}` : pipe;
    const stops = Math.max(way.edge, crest - first.pipe.bore / 2);
    return `${gate} lets the water out down to ${levelWords(stops)}, below the outlet, ${into}.`;
  }
  const lines = [...new Set(way.legs.map((leg) => said(one, leg.pipe.pipe.id)))].slice(0, 3);
  const line = listed(lines) || pipe;
  const alone = lines.length <= 1;
  if (goal.kind === "vent")
    return `${said(one, goal.vent.vent.id)} opens at ${levelWords(goal.vent.endLevel)}, under the water of ${name} (${levelWords(one.startLevel)}), and lets it out of ${line} ${into}.`;
  if (crest > one.startLevel)
    return `${line} ${alone ? "rises" : "rise"} to ${levelWords(crest)}, over the water, and ${alone ? "goes" : "go"} on as a siphon ${into} when the pump stops.`;
  const overPump = goal.kind === "body" && (goal.overPump || way.legs.some((leg) => leg.pipe.from.kind === "pump"));
  const back = overPump ? `runs back through the stopped pump ${into}` : `runs ${into}`;
  return `${line} nowhere ${alone ? "rises" : "rise"} over the water of ${name} (${levelWords(one.startLevel)}), so it ${back}.`;
}

function goalWords(one: Case, goal: Goal): string {
  if (goal.kind === "ground") return "onto the ground";
  const body = goal.kind === "body" ? goal.body : goal.vent.spillsTo;
  return body === "ground" ? "onto the ground" : `into ${said(one, body)}`;
}

/** Where it ends, and how much deeper than it should. */
function howFar(one: Case, goal: Goal | null): string {
  const { finalLevel, restingLevel, startLevel } = one;
  const under = (Math.min(restingLevel, startLevel) - finalLevel).toFixed(3);
  const other = goal?.kind === "body" ? (one.cut.finalLevels.get(goal.body) ?? null) : null;
  const meets =
    goal?.kind === "body" && other !== null && Math.abs(other - finalLevel) < level
      ? `, level with ${said(one, goal.body)}`
      : "";
  const below = restingLevel < startLevel ? "where its outlet would leave it" : "its running level";
  return `${said(one, one.vessel.id)} ends at ${levelWords(finalLevel)}${meets}, ${under} m below ${below}.`;
}

function aboutVent(one: Case, vent: VentModel, rating: CutVent): string {
  const name = said(one, vent.vent.id);
  const share =
    rating.airToWater === null ? "" : ` (${(rating.airToWater * 100).toPrecision(2)} % of the air that would take)`;
  switch (rating.rating) {
    case "ample":
      return vent.teeLevel < one.startLevel
        ? `${name} passes air enough, but its tee stands at ${levelWords(vent.teeLevel)}, under the water.`
        : `${name} lets air in at ${levelWords(vent.teeLevel)}.`;
    case "marginal":
      return `${name} is marginal${share} and is not counted on.`;
    case "tooSmall":
      return `${name} is too small to break it${share}.`;
    default:
      return `${name} sees no suction and cannot act.`;
  }
}

/** Full lines with a mouth in the vessel. */
function waysOut(network: Network, vessel: PartId): PipeModel[] {
  return [...network.pipes.values()].filter(
    (pipe) => pipe.runs === "full" && [pipe.from, pipe.to].some((end) => isMouthIn(network, end, vessel)),
  );
}

function byMovingPart(one: Case): string {
  const name = said(one, one.vessel.id);
  const lines = waysOut(one.cut.network, one.vessel.id);
  const checks = [...one.cut.network.pipes.values()]
    .filter((pipe) => pipe.checks.length > 0 && lines.some((line) => line.group === pipe.group))
    .flatMap((pipe) => pipe.checks.map(({ valve }) => said(one, valve.id)));
  const stuck = one.open?.finalLevels.get(one.vessel.id);
  const crest = Math.max(...lines.flatMap((line) => line.line.map(([, z]) => z)));
  const where =
    crest > one.startLevel
      ? `the line rises over the water of ${name} but has no vent that is enough to break its siphon`
      : `the line nowhere rises over the water of ${name} (${levelWords(one.startLevel)}), so no vent could help`;
  return `Only ${checks.join(" and ") || "a check valve"} stands in the way: ${where}. ${stuck === undefined ? "" : `With it stuck open ${name} drains to ${levelWords(stuck)}.`}`.trim();
}

function byGeometry(one: Case): string {
  const name = said(one, one.vessel.id);
  const sentences: string[] = [];
  for (const pipe of waysOut(one.cut.network, one.vessel.id)) {
    const line = said(one, pipe.pipe.id);
    const end = [pipe.from, pipe.to].find((side) => side.kind === "body" && side.opening.body === one.vessel.id);
    const edge = end?.kind === "body" ? end.opening.edge : null;
    const vent = [...one.cut.network.vents.values()].find(
      (candidate) =>
        candidate.pipe === pipe.pipe.id &&
        one.ratings.get(candidate.vent.id)?.rating === "ample" &&
        candidate.teeLevel >= Math.min(one.restingLevel, one.startLevel) - 0.02,
    );
    if (edge !== null && edge >= one.startLevel)
      sentences.push(`${line} ends at ${levelWords(edge)}, above the water: an air gap.`);
    else if (vent) {
      sentences.push(
        vent.teeLevel >= one.startLevel
          ? `${said(one, vent.vent.id)} lets air into ${line} at ${levelWords(vent.teeLevel)}, above the water (${levelWords(one.startLevel)}), so no siphon can form.`
          : `${said(one, vent.vent.id)} breaks the siphon of ${line} when the water is down to ${levelWords(vent.teeLevel)}.`,
      );
    } else if (pipe.shutAt.length > 0) sentences.push(`${line} is shut by a valve; opened, it would be a way out.`);
  }
  const fall = one.startLevel - one.finalLevel;
  sentences.push(
    fall > 0.002
      ? `${name} falls only to ${levelWords(one.finalLevel)}, where its outlets stop.`
      : `${name} stays at ${levelWords(one.finalLevel)}.`,
  );
  sentences.push("No moving part is relied on.");
  return sentences.map(started).join(" ");
}
