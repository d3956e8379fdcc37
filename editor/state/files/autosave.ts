/** The drawing on the desk, kept in the browser so that a crash loses nothing. The write is one transaction
 * that asks for a flush to disk: a power cut is this program's own subject. */
import { createStore, get, type UseStore } from "idb-keyval";
import { readSection, type Section, writeSection } from "../../../hydraulics/index.ts";

const key = "desk";
let store: UseStore | null = null;
const shelf = (): UseStore => {
  store ??= createStore("holdwater", "drawings");
  return store;
};

interface Kept {
  readonly text: string;
  readonly fileName: string | null;
}

export interface Restored {
  readonly section: Section;
  readonly fileName: string | null;
}

export async function keepDrawing(section: Section, fileName: string | null): Promise<void> {
  const kept: Kept = { text: writeSection(section), fileName };
  // idb-keyval opens its transactions without saying how durable; its connection can be asked for our own.
  await shelf()("readonly", (objects) => {
    const writing = objects.transaction.db.transaction(objects.name, "readwrite", { durability: "strict" });
    writing.objectStore(objects.name).put(kept, key);
    return new Promise<void>((resolve, reject) => {
      writing.oncomplete = () => resolve();
      writing.onerror = () => reject(writing.error);
      writing.onabort = () => reject(writing.error);
    });
  });
}

/** What was on the desk last; null the first time, or where the browser keeps nothing. */
export async function restoreDrawing(): Promise<Restored | null> {
  const kept = await get<Kept>(key, shelf());
  if (!kept || typeof kept.text !== "string") return null;
  const read = readSection(kept.text);
  return read.ok ? { section: read.value, fileName: kept.fileName } : null;
}
