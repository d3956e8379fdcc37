/** Columns that suction parts when the pumps stop: design notes, section 8, "crest suction greater than 7 m of water".
 *
 *     h = H − V²/2g − z < −7 m     at any place of a full line in which water flows, at the first moment of the cut
 * H has the losses up to that place taken off, so a long line parts at a lower crest than a short one, and at the far
 * end of a level crest before the near one. Water at 15 °C boils at −10.2 m at sea level; 7 m leaves room for the air
 * that comes out of it: common practice, no source. Reported, not credited. */
import type { PartId, Section } from "../document/section.ts";
import { buildNetwork } from "../network/build.ts";
import type { Network, PipeModel } from "../network/network.ts";
import { crestOf } from "../network/pipeModel.ts";
import { fluidOf } from "../solver/readings/fluid.ts";
import { airyNodes, extremes, gradeLine } from "../solver/readings/gradeLine.ts";
import { lossesByFormula } from "../solver/readings/losses.ts";
import { atRest, settle } from "../solver/rest.ts";
import type { Steady } from "../solver/steady.ts";
import type { CutEvent } from "./powerCut.ts";
import { solveAtLevels } from "./solveAtLevels.ts";
import { levelWords, nameOf } from "./words.ts";

/** m of pressure head under which a column parts by itself */
const parts = -7;

interface Start {
  /** of the cut: its lines and ends are asked before anything is built */
  readonly network: Network;
  readonly startLevels: ReadonlyMap<PartId, number>;
  /** vents rated ample */
  readonly airPoints: ReadonlySet<PartId>;
  /** gravity pipes followed as full lines */
  readonly asFull: ReadonlySet<PartId>;
}

export function partingColumns(section: Section, start: Start): CutEvent[] {
  const { startLevels, airPoints, asFull } = start;
  const low = lowestEnd(start.network, startLevels);
  if (!fullOf(start.network).some((pipe) => crestOf(pipe) - low > -parts)) return [];
  const network = buildNetwork(section, { pumps: "stopped", checkValves: "sound", airPoints, asFull });
  const { system, solved } = solveAtLevels(network, startLevels);
  if (!solved.converged) return [];
  const state: Steady = { network, system, solved, ratings: new Map(), iterations: solved.iterations };
  const fluid = fluidOf(section);
  const airy = airyNodes(state);
  return fullOf(network).flatMap((pipe): CutEvent[] => {
    const flows = pipe.stretches.map(({ link }) => settle(link.Q));
    if (!flows.some((flow) => Math.abs(flow) > atRest)) return [];
    const line = gradeLine(state, pipe, flows, lossesByFormula(section, pipe, fluid).used, airy);
    const { lowestPressureHead: lowest, lowestPressureAt: at } = extremes(line, false);
    if (lowest === null || lowest >= parts) return [];
    const z = line.find((point) => point.at === at)?.z ?? crestOf(pipe);
    return [
      {
        time: 0,
        part: pipe.pipe.id,
        code: "columnParts",
        text: `At ${levelWords(z)} the suction in ${nameOf(section, pipe.pipe.id)} passes 7 m: the column parts by itself. That is not counted on.`,
      },
    ];
  });
}

const fullOf = ({ pipes }: Network): readonly PipeModel[] => [...pipes.values()].filter(({ runs }) => runs === "full");

/** The grade line of a line that flows lies nowhere under the lowest water or open end that it leads to. */
function lowestEnd(network: Network, levels: ReadonlyMap<PartId, number>): number {
  const openEnds = [...network.pipes.values()].flatMap(({ from, to, line }) => [
    ...(from.kind === "air" ? [line[0]?.[1] ?? 0] : []),
    ...(to.kind === "air" ? [line.at(-1)?.[1] ?? 0] : []),
  ]);
  const ends = [...network.bodies.keys()].map((id) => levels.get(id) as number);
  return Math.min(...ends, ...openEnds);
}
