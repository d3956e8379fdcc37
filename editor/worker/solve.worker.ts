/** Solves sections off the main thread. One answer a question; the asker drops those it no longer wants. */

import type { Section } from "../../hydraulics/index.ts";
import { startAnswering } from "./answering.ts";
import type { Answer, SentQuestion } from "./messages.ts";
import { withDelta } from "./sectionDelta.ts";

/** the run that was asked for last: an older one is left between two of its steps, unanswered */
let newest = 0;

let section: Section | null = null;

const say = (answer: Answer): void => self.postMessage(answer);
const answer = startAnswering({ goesOn, tell: say });

self.addEventListener("message", async ({ data: { delta, ...question } }: MessageEvent<SentQuestion>) => {
  newest = question.run;
  section = withDelta(section, delta);
  const said = await answer({ ...question, section });
  if (said) say(said);
});

/** By a message to itself: what has come meanwhile stands before it. */
function goesOn(run: number): Promise<boolean> {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      done(run === newest);
    };
    port2.postMessage(null);
  });
}
