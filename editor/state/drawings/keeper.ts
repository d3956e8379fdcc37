/** Keeps what is on the desk on the shelf, and fetches other drawings from it.
 *
 * Written at once whenever the drawing has become another one; while one write is under way the newest follows it.
 * A drawing that another window has changed meanwhile is not overwritten: what is here goes on as a drawing of its
 * own, and the words say so. */
import { readSection, type Section, writeSection } from "../../../hydraulics/index.ts";
import type { Desk, DeskState } from "../desk.ts";
import { bringBackToShelf, duplicateOnShelf, type Keeping, removeFromShelf, renameOnShelf } from "./onShelf.ts";
import { otherWindows } from "./otherWindows.ts";
import type { About, Shelf } from "./shelf.ts";
import { troubleWords } from "./troubleWords.ts";

export interface Keeper {
  /** newest first; those taken away among them */
  get(): readonly About[];
  subscribe(listener: () => void): () => void;
  /** Puts on the desk what lay there last: in this window, else in any. False where nothing did. */
  restore(wanted: string | null): Promise<boolean>;
  /** From here on the desk is watched. */
  watch(): void;
  open(id: string): Promise<void>;
  rename(id: string, name: string): Promise<void>;
  duplicate(id: string): Promise<void>;
  remove(id: string): Promise<void>;
  bringBack(id: string): Promise<void>;
  /** False while the browser refuses to write: a private window, a full disk. The listeners are told. */
  keeps(): boolean;
  /** Done when all that was on the desk is written. */
  settled(): Promise<void>;
}

export interface KeeperOptions {
  readonly desk: Desk;
  readonly shelf: Shelf;
  readonly freshId: () => string;
  /** ms since 1970 */
  readonly clock: () => number;
  /** tells which drawing this window shows, to find it again after a reload */
  readonly remember: (id: string) => void;
}

export function createKeeper({ desk, shelf, freshId, clock, remember }: KeeperOptions): Keeper {
  let list: readonly About[] = [];
  const listeners = new Set<() => void>();
  /** the count of each drawing as this window saw it last */
  const seen = new Map<string, number>();
  let kept: { readonly id: string; readonly section: Section } | null = null;
  let parted = false;
  let writing: Promise<void> | null = null;
  let broken = false;

  const refresh = async (): Promise<void> => {
    const open = desk.get().drawing;
    const found = await shelf.list();
    // A sheet on which nothing was ever drawn is not worth a line, but for the one that lies open.
    list = found.filter((about) => about.parts > 0 || about.id === open);
    for (const listener of listeners) listener();
  };

  const windows = otherWindows({
    open: () => desk.get().drawing,
    shared: () =>
      desk.say({
        text: "This drawing is open in another window too. What both change is not mixed: it becomes two drawings.",
        tone: "plain",
      }),
    changed: (id) => {
      void refresh().catch(toldTrouble);
      if (id !== desk.get().drawing) return;
      desk.say({
        text: "This drawing was changed in another window. Nothing of yours is overwritten: if you go on here, it becomes a drawing of its own.",
        tone: "plain",
        act: { label: "Show what is there now", run: () => void showThere(id) },
      });
    },
  });

  const toldTrouble = (error: unknown): void => {
    if (broken) return;
    broken = true;
    for (const listener of listeners) listener();
    desk.say({
      text: `The browser does not keep the drawing: ${troubleWords(error)}. Save it to a file, or it may be lost.`,
      tone: "refusal",
    });
  };

  const writeNewest = async (): Promise<void> => {
    for (;;) {
      const { section, drawing: id, file } = desk.get();
      if (kept?.id === id && kept.section === section) return;
      if (kept?.id !== id) {
        parted = list.find((about) => about.id === id)?.parted === true;
        remember(id);
        windows.opened(id);
      }
      kept = { id, section };
      const text = writeSection(section);
      const twin = file && !seen.has(id) ? await twinOf(file.name, text) : undefined;
      if (twin) {
        // The same file once more: it lies on the shelf already, word for word.
        seen.set(twin.id, twin.count);
        kept = { id: twin.id, section };
        desk.keepAs(twin.id);
        remember(twin.id);
        await shelf.markOpen(twin.id);
        continue;
      }
      const about = {
        id,
        name: section.title,
        changed: clock(),
        parts: section.parts.size,
        fileName: file?.name ?? null,
        ...(parted ? { parted } : {}),
      };
      const done = await shelf.write(about, text, seen.get(id) ?? 0);
      if (done.written) {
        seen.set(id, done.about.count);
        windows.changed(id);
      } else part(id, done.there);
      broken = false;
      await refresh();
    }
  };

  const twinOf = async (fileName: string, text: string): Promise<About | undefined> => {
    for (const about of await shelf.list())
      if (about.fileName === fileName && about.gone === undefined && (await shelf.read(about.id)) === text)
        return about;
    return undefined;
  };

  /** What is here goes on under an id of its own; the next turn of the loop writes it. */
  const part = (id: string, there: About): void => {
    const own = freshId();
    parted = true;
    desk.keepAs(own);
    kept = null;
    list = [{ ...there, id: own, parted: true }, ...list];
    desk.say({
      text:
        there.gone === undefined
          ? "This drawing was changed in another window meanwhile. Nothing was overwritten: what you have here is now a drawing of its own."
          : "This drawing was taken away in another window. What you have here is kept as a drawing of its own.",
      tone: "plain",
      ...(there.gone === undefined ? { act: { label: "Open the other one", run: () => void open(id) } } : {}),
    });
  };

  const keep = (): Promise<void> => {
    writing ??= writeNewest()
      .catch(toldTrouble)
      .finally(() => {
        writing = null;
      });
    return writing;
  };

  const sectionOf = async (id: string): Promise<Section | null> => {
    const text = await shelf.read(id);
    const read = text === null ? null : readSection(text);
    return read?.ok ? read.value : null;
  };

  const putOnDesk = (about: About, section: Section): void => {
    seen.set(about.id, about.count);
    kept = { id: about.id, section };
    parted = about.parted === true;
    desk.open(section, null, about.id);
    remember(about.id);
    void shelf.markOpen(about.id).catch(toldTrouble);
    windows.opened(about.id);
  };

  const fetchOpen = async (id: string): Promise<boolean> => {
    const about = (await shelf.list()).find((each) => each.id === id);
    const section = about ? await sectionOf(id) : null;
    if (!about || !section) return false;
    putOnDesk(about, section);
    return true;
  };

  const unreadable = (error?: unknown): void =>
    desk.say({
      text: `That drawing can not be read any more${error === undefined ? "" : `: ${troubleWords(error)}`}. The drawing on the sheet is as it was.`,
      tone: "refusal",
    });

  const open = async (id: string): Promise<void> => {
    await keep();
    if (!(await fetchOpen(id))) unreadable();
    await refresh();
  };

  /** Another drawing took the place of one that is nowhere but here. */
  const offerBack = ({ section, file, saved, drawing }: DeskState): void => {
    if (section.parts.size === 0 || saved === section) return;
    const called = section.title || "the drawing before";
    desk.say({
      text: `${section.title || "The drawing before"} is not kept by this browser, and no file holds it as it was.`,
      tone: "refusal",
      act: { label: `Back to ${called}`, run: () => desk.open(section, file, drawing) },
    });
  };

  /** What another window made of the drawing that lies here. */
  const showThere = async (id: string): Promise<void> => {
    try {
      if (!(await fetchOpen(id))) unreadable();
    } catch (error) {
      unreadable(error);
    }
  };

  /** A quick hand presses twice: what is done second goes by what the first one left. */
  let turn: Promise<unknown> = Promise.resolve();
  const inTurn = (act: () => Promise<void>): Promise<void> => {
    const done = turn.then(act);
    // Whoever asked for it is told of its trouble; the next one goes on.
    turn = done.catch(() => undefined);
    return done;
  };

  const keeping: Keeping = {
    desk,
    shelf,
    freshId,
    clock,
    list: () => list,
    keep,
    refresh,
    sectionOf,
    unreadable,
    fetchOpen,
    forget: (id) => seen.delete(id),
    tellChanged: (id) => windows.changed(id),
  };
  return {
    get: () => list,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    async restore(wanted) {
      list = await shelf.list();
      const alive = list.filter((about) => about.gone === undefined);
      const last = await shelf.lastOpen();
      const first = [wanted, last, alive[0]?.id].find((id) => alive.some((about) => about.id === id));
      return first !== undefined && first !== null && (await fetchOpen(first));
    },
    watch() {
      let before = desk.get();
      desk.subscribe(() => {
        const now = desk.get();
        const left = before;
        before = now;
        if (broken && left.drawing !== now.drawing && left.section !== now.section) offerBack(left);
        const { section, drawing } = desk.get();
        if (kept?.section !== section || kept.id !== drawing) void keep();
      });
      void keep().then(refresh).catch(toldTrouble);
    },
    open,
    rename: (id, name) => inTurn(() => renameOnShelf(keeping, id, name)),
    duplicate: (id) => inTurn(() => duplicateOnShelf(keeping, id)),
    remove: (id) => inTurn(() => removeFromShelf(keeping, id)),
    bringBack: (id) => inTurn(() => bringBackToShelf(keeping, id)),
    keeps: () => !broken,
    settled: keep,
  };
}
