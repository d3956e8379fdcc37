/** What is done with drawings as they lie on the shelf: renamed, doubled, taken away, brought back. */
import { type Section, writeSection } from "../../../hydraulics/index.ts";
import { setTitle } from "../actions/setField.ts";
import type { Desk } from "../desk.ts";
import { emptySection } from "../emptySection.ts";
import type { About, Shelf } from "./shelf.ts";

/** What the keeper lends for it. */
export interface Keeping {
  readonly desk: Desk;
  readonly shelf: Shelf;
  readonly freshId: () => string;
  readonly clock: () => number;
  readonly list: () => readonly About[];
  /** Done when all that was on the desk is written. */
  readonly keep: () => Promise<void>;
  readonly refresh: () => Promise<void>;
  readonly sectionOf: (id: string) => Promise<Section | null>;
  readonly unreadable: () => void;
  /** False where it can not be read. */
  readonly fetchOpen: (id: string) => Promise<boolean>;
  /** The count that this window saw last is no longer the one to go by. */
  readonly forget: (id: string) => void;
  readonly tellChanged: (id: string) => void;
}

export async function renameOnShelf(keeping: Keeping, id: string, name: string): Promise<void> {
  const { desk, shelf, clock, freshId } = keeping;
  if (id === desk.get().drawing) {
    desk.apply(setTitle(desk.get().section, name));
    return keeping.keep();
  }
  const about = keeping.list().find((each) => each.id === id);
  const section = await keeping.sectionOf(id);
  if (!about || !section) return keeping.unreadable();
  const renamed = { ...section, title: name };
  const { count, ...rest } = about;
  const named = { ...rest, name, changed: clock() };
  const done = await shelf.write(named, writeSection(renamed), count);
  if (done.written) keeping.tellChanged(id);
  else {
    const own = freshId();
    await shelf.write({ ...named, id: own, parted: true }, writeSection(renamed), 0);
    desk.say({
      text: `${about.name || "That drawing"} was changed in another window meanwhile. Nothing was overwritten: what you named lies beside it as a drawing of its own.`,
      tone: "plain",
    });
  }
  await shelf.markOpen(desk.get().drawing);
  await keeping.refresh();
}

export async function duplicateOnShelf(keeping: Keeping, id: string): Promise<void> {
  const { desk, shelf, clock, freshId } = keeping;
  await keeping.keep();
  const about = keeping.list().find((each) => each.id === id);
  const section = await keeping.sectionOf(id);
  if (!about || !section) return keeping.unreadable();
  const title = nameOfCopy(section.title, new Set(keeping.list().map((each) => each.name)));
  const copy: Omit<About, "count"> = {
    id: freshId(),
    name: title,
    changed: clock(),
    parts: section.parts.size,
    fileName: null,
  };
  await shelf.write(copy, writeSection({ ...section, title }), 0);
  await shelf.markOpen(desk.get().drawing);
  await keeping.refresh();
}

/** From the desk too, where it lies there: then the next one, or an empty sheet. */
export async function removeFromShelf(keeping: Keeping, id: string): Promise<void> {
  const { desk, shelf, clock } = keeping;
  await keeping.keep();
  const about = keeping.list().find((each) => each.id === id);
  if (!about) return;
  if (id === desk.get().drawing) {
    const next = keeping.list().find((each) => each.id !== id && each.gone === undefined);
    const { slip } = desk.get().view;
    if (!next || !(await keeping.fetchOpen(next.id))) desk.open(emptySection, null);
    desk.look((view) => ({ ...view, slip }));
    await keeping.keep();
  }
  await shelf.amend(id, (there) => ({ ...there, gone: clock() }));
  keeping.forget(id);
  keeping.tellChanged(id);
  await keeping.refresh();
}

export async function bringBackToShelf({ shelf, refresh }: Keeping, id: string): Promise<void> {
  await shelf.amend(id, ({ gone: _, ...there }) => there);
  await refresh();
}

/** `Yard, copy`, `Yard, copy 2`; a title has at most 400 letters. */
function nameOfCopy(title: string, taken: ReadonlySet<string>): string {
  const stem = title.replace(/, copy(?: \d+)?$/, "").slice(0, 380);
  for (let n = 1; ; n++) {
    const name = n === 1 ? `${stem}, copy` : `${stem}, copy ${n}`;
    if (!taken.has(name)) return name;
  }
}
