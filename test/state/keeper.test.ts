/** What is said when two windows want the same drawing, with a shelf and a second window of the test's own. */
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { setTitle } from "../../editor/state/actions/setField.ts";
import { createDesk } from "../../editor/state/desk.ts";
import { createKeeper } from "../../editor/state/drawings/keeper.ts";
import type { About, Shelf } from "../../editor/state/drawings/shelf.ts";
import { emptySection } from "../../editor/state/emptySection.ts";
import { writeSection } from "../../hydraulics/index.ts";
import { yard } from "./yard.ts";

/** Hears what another window tells. */
class Channel {
  static open: Channel[] = [];
  onmessage: ((event: { data: unknown }) => void) | null = null;
  constructor() {
    Channel.open.push(this);
  }
  postMessage(): void {}
  close(): void {}
}

beforeEach(() => {
  Channel.open = [];
  vi.stubGlobal("BroadcastChannel", Channel);
});
afterEach(() => vi.unstubAllGlobals());

const titled = (title: string) => ({ ...emptySection, title });
const lying = (id: string, name: string): About => ({ id, name, changed: 1, count: 1, parts: 3, fileName: null });

function shelfWith(...drawings: readonly About[]) {
  const about = new Map(drawings.map((each) => [each.id, each]));
  const texts = new Map(drawings.map(({ id, name }) => [id, writeSection(titled(name))]));
  let broken: Error | null = null;
  const shelf: Shelf = {
    list: async () => {
      if (broken) throw broken;
      return [...about.values()];
    },
    read: async (id) => texts.get(id) ?? null,
    write: async (next, text, knows) => {
      const there = about.get(next.id);
      if (there && there.count !== knows) return { written: false, there };
      const written = { ...next, count: knows + 1 };
      about.set(next.id, written);
      texts.set(next.id, text);
      return { written: true, about: written };
    },
    amend: async () => null,
    lastOpen: async () => null,
    markOpen: async () => {},
  };
  return {
    shelf,
    about,
    byAnotherWindow: (id: string) => about.set(id, { ...(about.get(id) as About), count: 7 }),
    breakDown: (error: Error) => {
      broken = error;
    },
  };
}

async function opened(...drawings: readonly About[]) {
  const kept = shelfWith(...drawings);
  let n = 0;
  const desk = createDesk(
    () => 0,
    emptySection,
    () => "here",
  );
  const keeper = createKeeper({
    desk,
    shelf: kept.shelf,
    freshId: () => `fresh-${++n}`,
    clock: () => 2,
    remember: () => {},
  });
  await keeper.restore(null);
  return { ...kept, desk, keeper };
}

it("a drawing that another window changed is not renamed over: both lie there, and it is said", async () => {
  const { keeper, desk, about, byAnotherWindow } = await opened(lying("open", "Open"), lying("yard", "Yard"));
  byAnotherWindow("yard");

  await keeper.rename("yard", "Back yard");

  expect([...about.values()].map(({ name }) => name).sort()).toEqual(["Back yard", "Open", "Yard"]);
  expect(desk.get().message?.text).toContain("Yard was changed in another window");
});

it("a drawing that nobody else changed is renamed in its place, without a word", async () => {
  const { keeper, desk, about } = await opened(lying("open", "Open"), lying("yard", "Yard"));

  await keeper.rename("yard", "Back yard");

  expect([...about.values()].map(({ name }) => name).sort()).toEqual(["Back yard", "Open"]);
  expect(desk.get().message).toBeNull();
});

it("what another window made of the drawing can not be read: that is said, and the sheet stays as it was", async () => {
  const { desk, breakDown } = await opened(lying("open", "Open"));
  Channel.open[0]?.onmessage?.({ data: { says: "changed", drawing: "open" } });
  await vi.waitFor(() => expect(desk.get().message?.act?.label).toBe("Show what is there now"));
  const before = desk.get().section;
  breakDown(new Error("the disk is full"));

  desk.get().message?.act?.run();

  await vi.waitFor(() => expect(desk.get().message?.text).toMatch(/can not be read any more: the disk is full/));
  expect(desk.get().section).toBe(before);
});

it("a drawing doubled twice at once gives two copies of two names", async () => {
  const { keeper, desk, about } = await opened();
  keeper.watch();
  desk.open(yard(), null, "yard");
  await keeper.settled();

  await Promise.all([keeper.duplicate("yard"), keeper.duplicate("yard")]);

  const names = [...about.values()].filter(({ parts }) => parts > 0).map(({ name }) => name);
  expect(names).toEqual([yard().title, `${yard().title}, copy`, `${yard().title}, copy 2`]);
});

it("another drawing opened while the browser keeps none: a press leads back to what is nowhere else", async () => {
  const { keeper, desk, breakDown } = await opened(lying("open", "Open"));
  keeper.watch();
  desk.open(yard(), null);
  await keeper.settled();
  breakDown(new DOMException("", "QuotaExceededError"));
  desk.apply(setTitle(desk.get().section, "Not kept"));
  await keeper.settled();
  expect(desk.get().message?.text).toBe(
    "The browser does not keep the drawing: its store is full. Save it to a file, or it may be lost.",
  );
  const left = desk.get();

  desk.open(titled("Another"), null, "another");
  expect(desk.get().message?.act?.label).toBe("Back to Not kept");
  desk.get().message?.act?.run();

  expect(desk.get().section).toBe(left.section);
  expect(desk.get().drawing).toBe(left.drawing);
});
