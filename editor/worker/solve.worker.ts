/** Solves sections off the main thread. One answer a question; the asker drops those it no longer wants. */
import { startAnswering } from "./answering.ts";
import type { Answer, Question } from "./messages.ts";

/** the run that was asked for last: an older one is left between two of its steps, unanswered */
let newest = 0;

const say = (answer: Answer): void => self.postMessage(answer);
const answer = startAnswering({ goesOn, tell: say });

self.addEventListener("message", async ({ data }: MessageEvent<Question>) => {
  newest = data.run;
  const said = await answer(data);
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
