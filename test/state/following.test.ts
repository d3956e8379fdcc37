import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { emptySection } from "../../editor/state/emptySection.ts";
import { type Follower, startFollowing } from "../../editor/worker/following.ts";
import type { RunningAnswer, RunningQuestion } from "../../editor/worker/messages.ts";
import { type Running, type Section, solveRunning } from "../../hydraulics/index.ts";

/** A worker that answers when it is told to. */
class Slow implements Follower {
  onmessage: ((event: MessageEvent<RunningAnswer>) => void) | null = null;
  readonly asked: string[] = [];
  postMessage({ delta }: RunningQuestion): void {
    this.asked.push(delta.title);
  }
  answer(data: RunningAnswer): void {
    this.onmessage?.({ data } as MessageEvent<RunningAnswer>);
  }
}

const running: Running = solveRunning(emptySection).running;
const solved: RunningAnswer = { delta: { kind: "whole", running } };
const drawing = (title: string): Section => ({ ...emptySection, title });

function started() {
  const worker = new Slow();
  const told: string[] = [];
  const following = startFollowing(
    () => worker,
    ({ title }) => told.push(title),
  );
  return { worker, told, following };
}

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe("the running state while the hand moves", () => {
  it("is asked for after the frame, and of what came in one frame the newest alone", () => {
    const { worker, following } = started();
    following.ask(drawing("a"));
    following.ask(drawing("b"));
    expect(worker.asked).toEqual([]);

    vi.runAllTimers();

    expect(worker.asked).toEqual(["b"]);
  });

  it("of sections that come while one is solved only the newest is solved after it, at once", () => {
    const { worker, told, following } = started();
    following.ask(drawing("a"));
    vi.runAllTimers();
    for (const title of ["b", "c"]) following.ask(drawing(title));
    vi.runAllTimers();
    expect(worker.asked).toEqual(["a"]);

    worker.answer(solved);

    expect(told).toEqual(["a"]);
    expect(worker.asked).toEqual(["a", "c"]);
  });

  it("is not asked for again where the hand is back at what was asked last", () => {
    const { worker, told, following } = started();
    const a = drawing("a");
    following.ask(a);
    vi.runAllTimers();
    following.ask(drawing("b"));
    following.ask(a);
    worker.answer(solved);
    vi.runAllTimers();

    following.ask(a);
    vi.runAllTimers();

    expect(told).toEqual(["a"]);
    expect(worker.asked).toEqual(["a"]);
  });

  it("goes on after a section that could not be solved, of which nothing is told", () => {
    const { worker, told, following } = started();
    following.ask(drawing("a"));
    vi.runAllTimers();
    following.ask(drawing("b"));

    worker.answer({ broken: "no engine in this test" });

    expect(told).toEqual([]);
    expect(worker.asked).toEqual(["a", "b"]);
  });
});
