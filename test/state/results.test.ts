/** What of the worker's answers is shown in a drag, and when. The worker is stood in for; what it answers is solved. */
import { readFileSync } from "node:fs";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { moveParts } from "../../editor/state/actions/moveParts.ts";
import { removeParts } from "../../editor/state/actions/removeParts.ts";
import type { Changed } from "../../editor/state/edit.ts";
import type { Answer, SentQuestion } from "../../editor/worker/messages.ts";
import { createResults } from "../../editor/worker/results.ts";
import { withDelta } from "../../editor/worker/sectionDelta.ts";
import { assess, dataOf, type PartId, readSection, type Section } from "../../hydraulics/index.ts";

/** Answers while it is asked. */
class AtOnce {
  onmessage: ((event: { readonly data: Answer }) => void) | null = null;
  private known: Section | null = null;
  postMessage({ run, delta }: SentQuestion): void {
    this.known = withDelta(this.known, delta);
    const assessment = { ...dataOf(assess(this.known, { quick: true })), faults: [] };
    this.onmessage?.({ data: { run, assessment, mends: null } });
  }
  terminate(): void {}
}

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal("Worker", AtOnce);
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

function sectionOf(changed: Changed): Section {
  if (!changed.ok) throw new Error(changed.why);
  return changed.section;
}

const read = readSection(readFileSync(new URL("../../samples/courtyard-bog.json", import.meta.url), "utf8"));
if (!read.ok) throw new Error("the sample can not be read");
const bog = read.value;
/** by k mm to the right: the vessel fares the same */
const moved = (k: number): Section => sectionOf(moveParts(bog, new Set(["bog" as PartId]), k / 1000, 0));

/** A drag whose first answer is shown. */
function inDrag() {
  const results = createResults();
  let told = 0;
  results.subscribe(() => {
    told += 1;
  });
  const moveTo = (section: Section): void => {
    results.runningNow(section);
    results.ask(section, "quick");
  };
  const first = moved(1);
  moveTo(first);
  expect(results.get()?.section).toBe(first);
  return { results, moveTo, first, told: () => told };
}

it("a verdict that says the same as the one shown waits 0.4 s while the hand moves on", () => {
  const { results, moveTo, first, told } = inDrag();
  for (let k = 2; k <= 20; k++) {
    vi.advanceTimersByTime(20);
    moveTo(moved(k));
    expect(results.get()?.section).toBe(first);
  }
  vi.advanceTimersByTime(20);
  const last = moved(21);
  moveTo(last);
  expect(results.get()?.section).toBe(last);
  // What comes in mid drag is shown with the next move, not in a frame of its own.
  expect(told()).toBe(0);
});

it("one that says something else is shown with the next move", () => {
  const { results, moveTo } = inDrag();
  vi.advanceTimersByTime(20);
  const ventless = sectionOf(removeParts(bog, new Set(["breather" as PartId])));
  moveTo(ventless);
  expect(results.get()?.section).toBe(ventless);
});

it("what waits is shown where the hand rests, and the page is told", () => {
  const { results, moveTo, first, told } = inDrag();
  vi.advanceTimersByTime(20);
  const last = moved(2);
  moveTo(last);
  expect(results.get()?.section).toBe(first);
  vi.advanceTimersByTime(49);
  expect([results.get()?.section, told()]).toEqual([first, 0]);
  vi.advanceTimersByTime(1);
  expect(results.get()?.section).toBe(last);
  expect(told()).toBe(1);
});

it("what is asked when the hand lets go is shown and told at once", () => {
  const { results, told } = inDrag();
  const last = moved(2);
  results.ask(last, "full");
  expect(results.get()?.section).toBe(last);
  expect(told()).toBe(1);
});
