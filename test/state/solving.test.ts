import { afterEach, describe, expect, it, vi } from "vitest";
import { emptySection } from "../../editor/state/emptySection.ts";
import type { Answer, Question } from "../../editor/worker/messages.ts";
import { type Solver, startSolving } from "../../editor/worker/solving.ts";
import type { Section } from "../../hydraulics/index.ts";

/** A worker that answers when it is told to. */
class Slow implements Solver {
  onmessage: ((event: MessageEvent<Answer>) => void) | null = null;
  readonly asked: Question[] = [];
  ended = false;
  postMessage(question: Question): void {
    this.asked.push(question);
  }
  terminate(): void {
    this.ended = true;
  }
  answer(n: number): void {
    const { run } = this.asked[n] as Question;
    this.onmessage?.({ data: { run, broken: "no engine in this test" } } as MessageEvent<Answer>);
  }
}

const drawing = (title: string): Section => ({ ...emptySection, title });

function started() {
  const workers: Slow[] = [];
  const told: string[] = [];
  let time = 0;
  const solving = startSolving(
    () => {
      const worker = new Slow();
      workers.push(worker);
      return worker;
    },
    ({ section }) => told.push(section.title),
    () => time,
  );
  return { solving, told, workers, wait: (ms: number) => (time += ms) };
}

describe("asking the worker", () => {
  it("of sections that come while one is solved only the newest is solved after it, and the stale answer is dropped", () => {
    const { solving, told, workers } = started();
    for (const title of ["a", "b", "c"]) solving.ask({ section: drawing(title), depth: "full" });

    workers[0]?.answer(0);
    workers[0]?.answer(1);

    expect(workers[0]?.asked.map(({ section }) => section.title)).toEqual(["a", "c"]);
    expect(told).toEqual(["c"]);
  });

  it("in mid drag every answer is told, so that the verdict keeps up with the hand", () => {
    const { solving, told, workers } = started();
    vi.useFakeTimers();
    for (const title of ["a", "b"]) solving.ask({ section: drawing(title), depth: "quick" });

    workers[0]?.answer(0);
    vi.runAllTimers();
    vi.useRealTimers();
    workers[0]?.answer(1);

    expect(told).toEqual(["a", "b"]);
  });

  describe("rests between two runs of a drag", () => {
    /** @param took ms of a drag's first run, which has just been answered while the hand moved on */
    function dragged(took: number) {
      vi.useFakeTimers();
      const all = started();
      const titles = () => all.workers[0]?.asked.map(({ section }) => section.title);
      const pass = (ms: number): void => {
        all.wait(ms);
        vi.advanceTimersByTime(ms);
      };
      const moveTo = (title: string) => all.solving.ask({ section: drawing(title), depth: "quick" });
      moveTo("a");
      pass(took);
      moveTo("b");
      all.workers[0]?.answer(0);
      return { ...all, titles, pass, moveTo };
    }
    afterEach(() => void vi.useRealTimers());

    it("three times as long as one took, and then solves the newest", () => {
      const { titles, pass, moveTo } = dragged(20);
      for (const title of ["c", "d"]) {
        pass(25);
        moveTo(title);
      }
      expect(titles()).toEqual(["a"]);
      pass(9);
      expect(titles()).toEqual(["a"]);
      pass(1);
      expect(titles()).toEqual(["a", "d"]);
    });

    it("no longer than 0.3 s after a long one", () => {
      const { titles, pass, moveTo } = dragged(5000);
      for (let k = 1; k <= 9; k++) {
        pass(30);
        moveTo(`${k}`);
      }
      expect(titles()).toEqual(["a"]);
      pass(30);
      expect(titles()).toEqual(["a", "9"]);
    });

    it("only as long as the hand does not", () => {
      const { titles, pass } = dragged(100);
      pass(49);
      expect(titles()).toEqual(["a"]);
      pass(1);
      expect(titles()).toEqual(["a", "b"]);
    });

    it("not where the hand lets go", () => {
      const { solving, titles, pass } = dragged(100);
      solving.ask({ section: drawing("let go"), depth: "full" });
      expect(titles()).toEqual(["a", "let go"]);
      pass(1000);
      expect(titles()).toEqual(["a", "let go"]);
    });
  });

  it("a run that takes long is given up when a newer section comes, and its worker goes on with that", () => {
    const { solving, told, workers, wait } = started();
    solving.ask({ section: drawing("long"), depth: "faults" });
    wait(1000);
    solving.ask({ section: drawing("new"), depth: "full" });

    workers[0]?.answer(0);
    workers[0]?.answer(1);

    expect(workers.length).toBe(1);
    expect(told).toEqual(["new"]);
  });

  it("a search for mends is given up as soon as a newer section comes", () => {
    const { solving, told, workers } = started();
    solving.ask({ section: drawing("old"), depth: "mends" });
    solving.ask({ section: drawing("new"), depth: "full" });

    expect(workers[0]?.asked.map(({ section }) => section.title)).toEqual(["old", "new"]);
    workers[0]?.answer(0);
    workers[0]?.answer(1);
    expect(told).toEqual(["new"]);
  });

  it("a worker that says nothing for seconds after it was given up is ended, and the newest section asked of another", () => {
    vi.useFakeTimers();
    const { solving, told, workers, wait } = started();
    solving.ask({ section: drawing("for ever"), depth: "full" });
    wait(1000);
    solving.ask({ section: drawing("new"), depth: "full" });
    solving.ask({ section: drawing("newest"), depth: "full" });
    vi.advanceTimersByTime(3000);
    expect(workers[0]?.ended).toBe(false);
    vi.advanceTimersByTime(2000);
    vi.useRealTimers();

    expect(workers[0]?.ended).toBe(true);
    workers[1]?.answer(0);
    expect(told).toEqual(["newest"]);
  });

  it("a worker that answers in time is not ended", () => {
    vi.useFakeTimers();
    const { solving, workers, wait } = started();
    solving.ask({ section: drawing("long"), depth: "full" });
    wait(1000);
    solving.ask({ section: drawing("new"), depth: "full" });
    workers[0]?.answer(1);
    vi.advanceTimersByTime(60_000);
    vi.useRealTimers();

    expect(workers.length).toBe(1);
  });

  it("in mid drag a long run is left to end, and of those that came meanwhile only the newest follows it", () => {
    const { solving, told, workers, wait } = started();
    vi.useFakeTimers();
    for (const title of ["a", "b", "c"]) {
      solving.ask({ section: drawing(title), depth: "quick" });
      wait(1000);
    }

    workers[0]?.answer(0);
    vi.runAllTimers();
    vi.useRealTimers();
    workers[0]?.answer(1);

    expect(workers.length).toBe(1);
    expect(told).toEqual(["a", "c"]);
  });

  it("a long run of a drag is given up when the hand rests on a newer section", () => {
    const { solving, told, workers, wait } = started();
    solving.ask({ section: drawing("in the hand"), depth: "quick" });
    wait(1000);
    solving.ask({ section: drawing("let go"), depth: "full" });

    workers[0]?.answer(0);
    workers[0]?.answer(1);
    expect(told).toEqual(["let go"]);
  });

  it("a section that is being solved is not asked twice", () => {
    const { solving, workers } = started();
    const section = drawing("a");
    solving.ask({ section, depth: "full" });
    solving.ask({ section, depth: "full" });

    expect(workers[0]?.asked.length).toBe(1);
  });
});
