/** The hydraulic grade line over the pipes: how high the water would stand in open tubes along them. Where it lies
 * under a pipe the water there is below the pressure of the atmosphere, and that stretch of the pipe is marked. */
import type { GradePoint } from "../../hydraulics/index.ts";
import { type Drawing, paperAt } from "./drawing.ts";
import type { Place, SceneNode } from "./node.ts";
import type { Obstacles } from "./obstacles.ts";
import { withCrossings } from "./withCrossings.ts";

export function drawGradeLine(drawing: Drawing): readonly SceneNode[] {
  const { running } = drawing.input;
  // While a power cut is played levels are others; the line is the running state's.
  if (!running?.converged || drawing.moment !== null) return [];
  return drawing.parts.flatMap((part) => {
    const reading = part.kind === "pipe" ? running.pipes.get(part.id) : undefined;
    if (!reading || reading.flow === 0) return [];
    const mark = (
      key: string,
      points: readonly Place[],
      look: Pick<SceneNode & { shape: "line" }, "stroke" | "pen" | "dash">,
    ): SceneNode => ({
      key: `${part.id} ${key}`,
      part: part.id,
      space: "site",
      layer: "marks",
      shape: "line",
      points,
      join: "round",
      ...look,
    });
    return [
      ...runsOf(reading.gradeLine, ({ grade }) => grade !== null).map((run, k) =>
        mark(
          `grade line ${k}`,
          run.map(({ x, grade }): Place => [x, grade as number]),
          { stroke: "waterline", pen: "part", dash: [2.2, 1.1] },
        ),
      ),
      ...runsOf(withCrossings(reading.gradeLine), ({ grade, z }) => grade !== null && grade < z + 1e-9)
        .filter((run) => run.some(({ grade, z }) => (grade as number) < z - 1e-6))
        .map((run, k) =>
          mark(
            `under the atmosphere ${k}`,
            run.map(({ x, z }): Place => [x, z]),
            { stroke: "part", pen: "outline", dash: [0.8, 0.8] },
          ),
        ),
    ];
  });
}

/** Words keep off it. */
export function blockGradeLine(drawing: Drawing, obstacles: Obstacles): void {
  for (const node of drawGradeLine(drawing))
    if (node.shape === "line")
      obstacles.addLine(
        node.points.map((point) => paperAt(drawing, point)),
        half,
      );
}

/** mm on each side */
const half = 0.5;

/** Neighbouring points of which all are so, in runs of two and more. */
function runsOf(line: readonly GradePoint[], isSo: (point: GradePoint) => boolean): readonly (readonly GradePoint[])[] {
  const runs: GradePoint[][] = [];
  let run: GradePoint[] = [];
  for (const point of line) {
    if (isSo(point)) run.push(point);
    else {
      if (run.length > 1) runs.push(run);
      run = [];
    }
  }
  if (run.length > 1) runs.push(run);
  return runs;
}
