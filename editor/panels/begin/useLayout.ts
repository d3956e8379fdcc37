import { useEffect, useRef, useState } from "react";
import type { LayoutAnswers } from "../../../hydraulics/index.ts";
import type { LaidOut, LayoutQuestion } from "./laidOut.ts";

/** The layout that follows from the answers; null while it is being found. */
export function useLayout(answers: LayoutAnswers): LaidOut | null {
  const [found, setFound] = useState<{ readonly answers: LayoutAnswers; readonly laid: LaidOut } | null>(null);
  const worker = useRef<Worker | null>(null);
  const asked = useRef({ run: 0, answers });
  useEffect(() => {
    const made = new Worker(new URL("./layout.worker.ts", import.meta.url), { type: "module" });
    made.onmessage = ({ data }: MessageEvent<LaidOut>) => {
      if (data.run === asked.current.run) setFound({ answers: asked.current.answers, laid: data });
    };
    worker.current = made;
    return () => {
      made.terminate();
      worker.current = null;
    };
  }, []);
  useEffect(() => {
    asked.current = { run: asked.current.run + 1, answers };
    worker.current?.postMessage({ run: asked.current.run, answers } satisfies LayoutQuestion);
  }, [answers]);
  return found?.answers === answers ? found.laid : null;
}
