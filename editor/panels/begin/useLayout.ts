import { useEffect, useRef, useState } from "react";
import type { LayoutAnswers } from "../../../hydraulics/index.ts";
import type { LaidOut, LayoutQuestion } from "./laidOut.ts";

/** The layout that follows from the answers; null while it is being found. */
export function useLayout(answers: LayoutAnswers): LaidOut | null {
  const [laid, setLaid] = useState<LaidOut | null>(null);
  const worker = useRef<Worker | null>(null);
  const run = useRef(0);
  useEffect(() => {
    const made = new Worker(new URL("./layout.worker.ts", import.meta.url), { type: "module" });
    made.onmessage = ({ data }: MessageEvent<LaidOut>) => {
      if (data.run === run.current) setLaid(data);
    };
    worker.current = made;
    return () => {
      made.terminate();
      worker.current = null;
    };
  }, []);
  useEffect(() => {
    run.current += 1;
    setLaid(null);
    worker.current?.postMessage({ run: run.current, answers } satisfies LayoutQuestion);
  }, [answers]);
  return laid;
}
