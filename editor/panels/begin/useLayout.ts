import { useEffect, useRef, useState } from "react";
import type { LayoutAnswers } from "../../../hydraulics/index.ts";
import type { LaidOut, LayoutQuestion } from "./laidOut.ts";

/** The layout that follows from the answers; null while it is being found. Where the worker can not be had, or ends, that
 * is the answer: an empty sheet is still to be had. */
export function useLayout(answers: LayoutAnswers): LaidOut | null {
  const [found, setFound] = useState<{ readonly answers: LayoutAnswers; readonly laid: LaidOut } | null>(null);
  const worker = useRef<Worker | null>(null);
  const asked = useRef({ run: 0, answers });
  const [broken, setBroken] = useState<string | null>(null);
  useEffect(() => {
    const made = new Worker(new URL("./layout.worker.ts", import.meta.url), { type: "module" });
    made.onerror = (event) => setBroken(event.message || "its program could not be loaded");
    made.onmessageerror = () => setBroken("its answer could not be read");
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
  if (found?.answers === answers) return found.laid;
  if (broken === null) return null;
  const why = `No layout can be worked out here (${broken}). Load the page again, or begin with an empty sheet.`;
  return { run: 0, ok: false, refusal: { answers: [], why } };
}
