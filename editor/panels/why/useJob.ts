import { useCallback, useEffect, useRef, useState } from "react";
import type { Job, JobAnswer } from "../../worker/jobs.ts";

export interface JobRun {
  readonly answers: readonly JobAnswer[];
  readonly state: "running" | "done" | "stopped" | "broken";
  readonly why: string;
  readonly stop: () => void;
}

const nothing: readonly JobAnswer[] = [];

/** Runs a job in a worker of its own for as long as it is the wanted one; another job, or none, ends it.
 * With `keep` the answers of the job before stay until the new ones are whole, so that a plot that follows the hand
 * does not blink. */
export function useJob(job: Job | null, { keep = false } = {}): JobRun {
  const [run, setRun] = useState<Omit<JobRun, "stop">>({ answers: nothing, state: "done", why: "" });
  const worker = useRef<Worker | null>(null);
  useEffect(() => {
    if (!job) {
      setRun({ answers: nothing, state: "done", why: "" });
      return;
    }
    const own = new Worker(new URL("../../worker/sweep.worker.ts", import.meta.url), { type: "module" });
    worker.current = own;
    const answers: JobAnswer[] = [];
    setRun((was) => ({ answers: keep ? was.answers : nothing, state: "running", why: "" }));
    own.onmessage = ({ data }: MessageEvent<JobAnswer>) => {
      if (data.kind === "done" || data.kind === "broken") {
        setRun({ answers: [...answers], state: data.kind, why: data.kind === "broken" ? data.why : "" });
        own.terminate();
        return;
      }
      answers.push(data);
      if (!keep) setRun({ answers: [...answers], state: "running", why: "" });
    };
    own.onerror = (event) => {
      setRun({ answers: [...answers], state: "broken", why: event.message || "its program could not be loaded" });
      own.terminate();
    };
    own.postMessage(job);
    return () => own.terminate();
  }, [job, keep]);
  const stop = useCallback(() => {
    worker.current?.terminate();
    setRun((was) => (was.state === "running" ? { ...was, state: "stopped" } : was));
  }, []);
  return { ...run, stop };
}
