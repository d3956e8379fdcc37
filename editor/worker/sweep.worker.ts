/** One job, told row by row; who wants no more of it ends the worker. */
import {
  assess,
  dataOf,
  headNeeded,
  lossEnds,
  type Pump,
  plottedFlows,
  returnCurve,
  sizeVariants,
  sweep,
  variantsOf,
  walk,
} from "../../hydraulics/index.ts";
import type { Job, JobAnswer } from "./jobs.ts";

const tell = (answer: JobAnswer): void => self.postMessage(answer);

self.addEventListener("message", (event: MessageEvent<Job>) => {
  // The edge of the worker: a broken promise of our own code is told, not lost.
  try {
    run(event.data);
    tell({ kind: "done" });
  } catch (error) {
    tell({ kind: "broken", why: error instanceof Error ? error.message : String(error) });
  }
});

function run(job: Job): void {
  switch (job.kind) {
    case "systemCurve": {
      const pump = job.section.parts.get(job.pump) as Pump;
      for (const flow of plottedFlows(pump, job.points)) {
        const { head, state } = headNeeded(job.section, job.pump, flow);
        const near = state ?? undefined;
        const low = headNeeded(job.section, job.pump, flow, { scatter: lossEnds.least }, near).head;
        const high = headNeeded(job.section, job.pump, flow, { scatter: lossEnds.greatest }, near).head;
        tell({ kind: "point", point: { flow, head, low, high } });
      }
      return;
    }
    case "sweep": {
      const variants =
        "field" in job.over
          ? variantsOf(job.section, job.over.field, job.over.range)
          : sizeVariants(job.section, job.over.pipe, job.over.series);
      for (const row of sweep(variants, job.watched)) tell({ kind: "row", row, total: variants.length });
      return;
    }
    case "returnCurve":
      tell({ kind: "returnCurve", points: returnCurve(job.section, job.vessel) });
      return;
    case "walk":
      tell({ kind: "walk", walk: walk(job.wish) });
      return;
    case "assess":
      tell({ kind: "assessment", assessment: dataOf(assess(job.section, { quick: true })) });
  }
}
