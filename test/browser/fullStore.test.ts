/** The browser's store is full, files can not be read, a file can not be written: each ends in plain words, the drawing on
 * the sheet is as it was, and nothing is lost. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type App, openApp } from "../support/app.ts";
import { drawn, newSheet, openText, savedText, setDown, word } from "./sheet.ts";

let app: App;
let page: Page;

beforeAll(async () => {
  app = await openApp();
  page = app.page;
  await drawn(page);
});

afterAll(async () => {
  expect(app.complaints).toEqual([]);
  await app.close();
});

/** From now on each write ends as where there is no room: its transaction is given up. */
async function fillStore(): Promise<void> {
  await page.evaluate(() => {
    const { put } = IDBObjectStore.prototype;
    const ended = new Set<IDBTransaction>();
    Object.assign(window, {
      emptyStore: () => {
        IDBObjectStore.prototype.put = put;
      },
    });
    IDBObjectStore.prototype.put = function full(this: IDBObjectStore, ...given: [unknown, IDBValidKey?]) {
      const { transaction } = this;
      Object.defineProperty(transaction, "error", {
        configurable: true,
        get: () => new DOMException("", "QuotaExceededError"),
      });
      const request = put.apply(this, given);
      // Several writes of one transaction: the first that fails ends it.
      queueMicrotask(() => {
        if (!ended.has(transaction)) transaction.abort();
        ended.add(transaction);
      });
      return request;
    };
  });
}
const emptyStore = () => page.evaluate(() => (window as unknown as { emptyStore(): void }).emptyStore());

const said = () => page.getByRole("alert").textContent();
const heading = (name: RegExp) => page.getByRole("heading", { level: 1, name }).waitFor({ state: "attached" });

const note = (title: string) =>
  JSON.stringify({
    format: "holdwater-section",
    version: 1,
    title,
    site: {},
    parts: [{ id: "n", kind: "note", x: 0, z: 0, text: "here" }],
  });

/** What the slip of a new drawing says of the one that lies here. */
async function keptWords(): Promise<string> {
  await word(page, "New").click();
  // Put away before the layout is there, it would break off the fetching of what lays out.
  await page
    .locator("#sheet-slip")
    .getByText(/^A pond of/)
    .waitFor();
  const words = (await page.locator("#sheet-slip .caution").textContent()) ?? "";
  await word(page, "New").click();
  return words;
}

test("a new drawing's slip says that the one that lies here is kept", async () => {
  expect(await keptWords()).toMatch(/The drawing that lies here is kept\.$/);
});

test("a full store is told once, the drawing is to be saved, and another one opened does not lose it", async () => {
  await openText(page, "alder.json", note("Alder"));
  await heading(/^Alder/);
  await fillStore();
  await setDown(page, "Pond", [600, 180]);
  await expect.poll(said).toMatch(/does not keep the drawing: its store is full\. Save it to a file/);
  await page.keyboard.press("Escape");
  expect(await word(page, "Save •").count()).toBe(1);
  expect(await keptWords()).toMatch(/keeps no drawings: save the one that lies here first, or it may be lost\.$/);
  const drawing = await page.evaluate(() => document.querySelector("h1")?.textContent);

  await page.keyboard.press("d");
  await word(page, "Courtyard bog filter").click();
  await heading(/^Courtyard/);
  await page.getByRole("button", { name: "Back to Alder" }).click();
  await heading(/^Alder/);
  expect(await page.evaluate(() => document.querySelector("h1")?.textContent)).toBe(drawing);
  await page.keyboard.press("Escape");

  const text = await savedText(page);
  expect(JSON.parse(text).parts.map(({ kind }: { kind: string }) => kind)).toEqual(["note", "pond"]);
  expect(await word(page, "Save •").count()).toBe(0);
  expect(await keptWords()).toMatch(/keeps no drawings; the one that lies here is saved as it is\.$/);

  await emptyStore();
  await setDown(page, "Pond", [760, 180]);
  await expect.poll(keptWords).toMatch(/The drawing that lies here is kept\.$/);
  await newSheet(page);
  expect(await keptWords()).not.toMatch(/lies here/);
  await page.keyboard.press("Escape");
});

/** Drops a file of so many bytes, or of this text; one that the browser can not read where it says so. */
async function drop(name: string, content: string | number | readonly number[], unreadable = false): Promise<void> {
  const data = await page.evaluateHandle(
    ([called, inside, locked]) => {
      const content =
        typeof inside === "string"
          ? inside
          : typeof inside === "number"
            ? new Uint8Array(inside)
            : Uint8Array.from(inside);
      const file = new File([content], called);
      if (!locked) {
        const transfer = new DataTransfer();
        transfer.items.add(file);
        return transfer;
      }
      file.arrayBuffer = () => Promise.reject(new DOMException("", "NotReadableError"));
      const transfer = new DataTransfer();
      Object.defineProperty(transfer, "files", { value: [file] });
      return transfer;
    },
    [name, content, unreadable] as const,
  );
  await page.dispatchEvent(".desk", "drop", { dataTransfer: data });
}

test.each([
  ["photo.png", "\u0089PNG\r\n\u001a\n\u0000\u0000\u0000", /photo\.png was not opened: it is no drawing/],
  // "ü" of an encoding that does not say which it is
  ["latin.json", [...Buffer.from(note("Gr\u00fcn"), "latin1")], /latin\.json was not opened: it is no drawing/],
  ["empty.json", "", /empty\.json was not opened: it is no drawing/],
  ["large.json", 20_000_000, /large\.json was not opened: a drawing has at most 16\sMiB/],
  ["other.json", "{}", /other\.json was not opened.*expected "holdwater-section", found nothing/],
] as const)("%s dropped is refused in words", async (name, content, words) => {
  const before = await savedText(page);
  await drop(name, content);

  await expect.poll(said).toMatch(words);
  expect(await said()).toContain("The drawing on the sheet is as it was.");
  await page.keyboard.press("Escape");
  expect(await savedText(page)).toBe(before);
});

test("a file that can not be read is refused in words", async () => {
  const before = await savedText(page);
  await drop("locked.json", "{}", true);

  await expect.poll(said).toMatch(/locked\.json was not opened: the browser can not read it/);
  await page.keyboard.press("Escape");
  expect(await savedText(page)).toBe(before);
});

/** A browser that has windows of its own for files, stood in for by one that takes what is written. */
async function withPickers(): Promise<void> {
  await page.addInitScript(() => {
    const written: string[] = [];
    let trouble: string | null = null;
    Object.assign(window, {
      written,
      troubleWith: (name: string | null) => {
        trouble = name;
      },
      showOpenFilePicker: async () => [],
      showSaveFilePicker: async () => {
        if (trouble === "AbortError") throw new DOMException("", trouble);
        const name = `saved-${written.length + 1}.json`;
        return {
          name,
          getFile: async () => new File([], name),
          createWritable: async () => {
            if (trouble) throw new DOMException("", trouble);
            return new WritableStream({
              write: () => {
                written.push(name);
              },
            });
          },
        };
      },
    });
  });
  await page.reload();
  await drawn(page);
}

interface Pickers {
  readonly written: readonly string[];
  troubleWith(name: string | null): void;
}
const trouble = (name: string | null) => page.evaluate((n) => (window as unknown as Pickers).troubleWith(n), name);
const written = () => page.evaluate(() => (window as unknown as Pickers).written);

test("Save as asks for another name, Save goes to the file named last, and what fails is said", async () => {
  await withPickers();
  await word(page, "Save as").click();
  await expect.poll(written).toEqual(["saved-1.json"]);
  await setDown(page, "Note", [640, 150]);
  await page.keyboard.press("Control+s");
  await expect.poll(written).toEqual(["saved-1.json", "saved-1.json"]);
  await page.keyboard.press("Control+Shift+s");
  await expect.poll(written).toEqual(["saved-1.json", "saved-1.json", "saved-3.json"]);

  await setDown(page, "Note", [680, 150]);
  for (const [name, words] of [
    ["QuotaExceededError", /not saved: there is no room for it/],
    ["NotAllowedError", /not saved: the browser may not write there/],
  ] as const) {
    await trouble(name);
    await page.keyboard.press("Control+s");
    await expect.poll(said).toMatch(words);
    await page.keyboard.press("Escape");
    expect(await word(page, "Save •").count()).toBe(1);
  }
  await trouble("AbortError");
  await word(page, "Save as").click();
  await page.waitForTimeout(100);
  expect(await page.getByRole("alert").count()).toBe(0);
  expect(await word(page, "Save •").count()).toBe(1);

  await page.keyboard.press("Control+z");
  expect(await word(page, "Save •").count()).toBe(0);
});

test("a drawing with a letter that stands for an unknown one is opened all the same", async () => {
  await drop("odd.json", note("Gr\ufffdn"));
  await heading(/^Gr\ufffdn/);
});
