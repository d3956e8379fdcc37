/** The drawings that the browser keeps, by name. What a list needs lies apart from the text, so that a list of large
 * drawings is quick. Every change is one transaction that asks for a flush to disk: a power cut is this program's
 * own subject. A drawing carries a count of its changes; who writes says which count it knows, and where another
 * window has written since nothing is overwritten. */
import { createStore, type UseStore } from "idb-keyval";

export interface About {
  readonly id: string;
  /** the drawing's title */
  readonly name: string;
  /** ms since 1970 of its last change */
  readonly changed: number;
  /** counts its changes, by whichever window */
  readonly count: number;
  readonly parts: number;
  /** the file it was opened from or saved to last */
  readonly fileName: string | null;
  /** parted from a drawing that another window changed */
  readonly parted?: boolean;
  /** when it was taken away; it can be brought back until `mostGone` others were taken away after it */
  readonly gone?: number;
}

export type Write =
  | { readonly written: true; readonly about: About }
  /** another window has changed it, or has taken it away */
  | { readonly written: false; readonly there: About };

export interface Shelf {
  list(): Promise<readonly About[]>;
  read(id: string): Promise<string | null>;
  /** `knows`: the count this window saw last; 0 where it saw none */
  write(about: Omit<About, "count">, text: string, knows: number): Promise<Write>;
  /** Changes what is said about a drawing, not the drawing. */
  amend(id: string, change: (about: About) => About | null): Promise<About | null>;
  /** the drawing that any window opened last */
  lastOpen(): Promise<string | null>;
  markOpen(id: string): Promise<void>;
}

const mostGone = 20;
const aboutKey = (id: string): string => `about ${id}`;
const textKey = (id: string): string => `text ${id}`;
const openKey = "open";

export function openShelf(): Shelf {
  let store: UseStore | null = null;
  const use = (): UseStore => {
    store ??= createStore("holdwater", "drawings");
    return store;
  };
  /** idb-keyval opens its transactions without saying how durable; its connection can be asked for our own. */
  const strictly = <T>(change: (objects: IDBObjectStore, give: (value: T) => void) => void, first: T): Promise<T> =>
    use()("readonly", (objects) => {
      const writing = objects.transaction.db.transaction(objects.name, "readwrite", { durability: "strict" });
      let result = first;
      return new Promise<T>((resolve, reject) => {
        writing.oncomplete = () => resolve(result);
        writing.onerror = () => reject(writing.error);
        writing.onabort = () => reject(writing.error);
        change(writing.objectStore(objects.name), (value) => {
          result = value;
        });
      });
    });
  const got = <T>(request: IDBRequest, use: (value: T | undefined) => void): void => {
    request.onsuccess = () => use(request.result as T | undefined);
  };
  const asked = <T>(ask: (objects: IDBObjectStore) => IDBRequest): Promise<T | undefined> =>
    use()(
      "readonly",
      (objects) =>
        new Promise((resolve, reject) => {
          const request = ask(objects);
          request.onsuccess = () => resolve(request.result as T | undefined);
          request.onerror = () => reject(request.error);
        }),
    );
  const allAbout = IDBKeyRange.bound("about ", "about \uffff");

  return {
    async list() {
      const found = (await asked<readonly About[]>((objects) => objects.getAll(allAbout))) ?? [];
      return found.filter(isAbout).sort((a, b) => b.changed - a.changed);
    },
    async read(id) {
      const text = await asked<unknown>((objects) => objects.get(textKey(id)));
      return typeof text === "string" ? text : null;
    },
    write: (about, text, knows) =>
      strictly<Write>(
        (objects, give) => {
          got<About>(objects.get(aboutKey(about.id)), (there) => {
            if (there && there.count !== knows) return give({ written: false, there });
            const next: About = { ...about, count: knows + 1 };
            objects.put(next, aboutKey(about.id));
            objects.put(text, textKey(about.id));
            objects.put(about.id, openKey);
            give({ written: true, about: next });
          });
        },
        { written: true, about: { ...about, count: knows } },
      ),
    amend: (id, change) =>
      strictly<About | null>((objects, give) => {
        got<About>(objects.get(aboutKey(id)), (there) => {
          if (!there) return;
          const next = change(there);
          if (next) objects.put({ ...next, count: there.count + 1 }, aboutKey(id));
          else forget(objects, id);
          give(next && { ...next, count: there.count + 1 });
          got<readonly About[]>(objects.getAll(allAbout), (all) => {
            const gone = (all ?? []).filter((each) => each.gone !== undefined);
            gone.sort((a, b) => (b.gone ?? 0) - (a.gone ?? 0));
            for (const old of gone.slice(mostGone)) forget(objects, old.id);
          });
        });
      }, null),
    lastOpen: async () => {
      const id = await asked<unknown>((objects) => objects.get(openKey));
      return typeof id === "string" ? id : null;
    },
    markOpen: (id) => strictly<void>((objects) => void objects.put(id, openKey), undefined),
  };
}

function forget(objects: IDBObjectStore, id: string): void {
  objects.delete(aboutKey(id));
  objects.delete(textKey(id));
}

/** What lies in the browser is not ours alone: another version of this program may have written it. */
const isAbout = (value: unknown): value is About =>
  typeof value === "object" &&
  value !== null &&
  typeof (value as About).id === "string" &&
  typeof (value as About).name === "string" &&
  Number.isFinite((value as About).changed) &&
  Number.isFinite((value as About).count);
