/** Why a vessel holds its water or does not, in two or three sentences with the levels in them. */
import type { PartId, Section, Vessel } from "../document/section.ts";
import type { Network, PipeModel, VentModel } from "../network/network.ts";
import type { CutRun } from "./cut.ts";
import type { CutVent, HeldBy, Verdict } from "./powerCut.ts";
import { levelWords, nameOf } from "./words.ts";

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

function drains(one: Case): string {
  const { cut, vessel, finalLevel, restingLevel } = one;
  const name = said(one, vessel.id);
  const out = cut.run.occurrences.filter((event) => event.what === "uncovered" && event.prime.body === vessel.id);
  const line = out.at(-1) ?? null;
  const pipe = line ? cut.network.pipes.get(line.prime.part) : leaking(one);
  const down = `${name} ends at ${levelWords(finalLevel)}, ${Math.max(0, Math.min(restingLevel, one.startLevel) - finalLevel).toFixed(3)} m below where its outlet would leave it.`;
  if (!pipe) return `${down} Water leaves it below its outlet when the pump stops, and nothing stands in the way.`;
  const crest = Math.max(...pipe.line.map(([, z]) => z));
  const rises = crest > one.startLevel;
  const by = one.siphons.has(pipe.pipe.id)
    ? `${said(one, pipe.pipe.id)} draws from below and may run full: it then pulls like a siphon.`
    : rises
      ? `${said(one, pipe.pipe.id)} rises to ${levelWords(crest)}, over the water, and goes on as a siphon when the pump stops.`
      : `${said(one, pipe.pipe.id)} nowhere rises over the water of ${name}, so it runs back through the stopped pump.`;
  return [by, ...ventsOn(one, pipe), down].join(" ");
}

/** A line that still carries water out of the vessel, or did. */
function leaking(one: Case): PipeModel | null {
  let most = 1e-5;
  let found: PipeModel | null = null;
  for (const pipe of waysOut(one.cut.network, one.vessel.id)) {
    const first = pipe.stretches[0]?.link;
    if (!first) continue;
    const e = one.cut.network.links.indexOf(first);
    const volume = Math.abs(one.cut.run.through[e] ?? 0);
    if (volume > most) {
      most = volume;
      found = pipe;
    }
  }
  return found;
}

function ventsOn(one: Case, pipe: PipeModel): string[] {
  const said: string[] = [];
  for (const vent of one.cut.network.vents.values()) {
    if (vent.pipe !== pipe.pipe.id) continue;
    const rating = one.ratings.get(vent.vent.id);
    if (rating) said.push(aboutVent(one, vent, rating));
  }
  return said;
}

function aboutVent(one: Case, vent: VentModel, rating: CutVent): string {
  const name = said(one, vent.vent.id);
  const share =
    rating.airToWater === null ? "" : ` (${(rating.airToWater * 100).toPrecision(2)} % of the air it takes)`;
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
export function waysOut(network: Network, vessel: PartId): PipeModel[] {
  return [...network.pipes.values()].filter(
    (pipe) =>
      pipe.runs === "full" &&
      [pipe.from, pipe.to].some(
        (end) =>
          (end.kind === "body" && end.opening.body === vessel) ||
          (end.kind === "pump" && network.pumps.get(end.pump)?.pump.in === vessel),
      ),
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
  return sentences.join(" ");
}
