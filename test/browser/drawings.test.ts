/** Several drawings kept in the browser by name, and two windows that have one open. */
import type { BrowserContext, Page } from "playwright-core";
import { expect, test } from "vitest";
import { type App, openApp } from "../support/app.ts";
import { drawn, newSheet, openText, saved, savedText, setDown, word } from "./sheet.ts";

const small = (title: string, note = "note") =>
  JSON.stringify({
    format: "holdwater-section",
    version: 1,
    title,
    site: {},
    parts: [{ id: "n", kind: "note", x: 0, z: 0, text: note }],
  });

const heading = (page: Page, name: RegExp) =>
  page.getByRole("heading", { level: 1, name }).waitFor({ state: "attached" });

async function opened(app: App, title: string): Promise<void> {
  await openText(app.page, `${title.toLowerCase()}.json`, small(title));
  await heading(app.page, new RegExp(`^${title}`));
}

const kept = (page: Page) => page.getByRole("list", { name: "Drawings kept in this browser" });
const names = (page: Page) => kept(page).locator(".name").allTextContents();

/** A second window on the same store. */
async function secondWindow(context: BrowserContext, address: string): Promise<Page> {
  const page = await context.newPage();
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, "showOpenFilePicker");
    Reflect.deleteProperty(window, "showSaveFilePicker");
  });
  await page.goto(address);
  await drawn(page);
  return page;
}

test("drawings are listed by name, opened, renamed, doubled, taken away and brought back", async () => {
  const app = await openApp();
  const { page } = app;
  await drawn(page);
  await opened(app, "Alder");
  await opened(app, "Birch");
  await page.keyboard.press("d");
  await expect.poll(() => names(page)).toEqual(["Birch", "Alder", "Courtyard bog filter"]);

  await word(page, "Alder").click();
  await heading(page, /^Alder/);
  await page.keyboard.press("d");
  await word(page, "Rename Birch").click();
  await page.getByLabel("New name").fill("Beech");
  await page.getByLabel("New name").press("Enter");
  await expect.poll(() => names(page)).toContain("Beech");
  await word(page, "Duplicate Beech").click();
  await expect.poll(() => names(page)).toContain("Beech, copy");
  expect((await saved(page)).title).toBe("Alder");

  await word(page, "Take away Alder").click();
  await expect.poll(() => names(page)).not.toContain("Alder");
  expect((await saved(page)).title).not.toBe("Alder");
  await word(page, "Bring back Alder").click();
  await expect.poll(() => names(page)).toContain("Alder");

  await word(page, "Rename Beech, copy").click();
  await page.getByLabel("New name").fill("   ");
  await page.getByLabel("New name").press("Enter");
  expect(await page.locator("#sheet-slip .trouble").textContent()).toMatch(/at least one letter/);

  await page.reload();
  await drawn(page);
  await page.keyboard.press("d");
  await expect.poll(() => names(page)).toEqual(expect.arrayContaining(["Alder", "Beech", "Beech, copy"]));
  expect(app.complaints).toEqual([]);
  await app.close();
});

test("Rename puts the cursor into the new name, and leaves the keys with the row afterwards", async () => {
  const app = await openApp();
  const { page } = app;
  await drawn(page);
  await opened(app, "Alder");
  await opened(app, "Birch");
  const before = await savedText(page);
  await page.keyboard.press("d");
  const focused = () => page.evaluate(() => document.activeElement?.getAttribute("aria-label") ?? "");

  await word(page, "Rename Alder").click();
  await page.keyboard.press("Control+a");
  await page.keyboard.press("Delete");
  await page.keyboard.type("Aspen");
  await page.keyboard.press("Enter");
  await expect.poll(() => names(page)).toContain("Aspen");
  expect(await savedText(page)).toBe(before);
  await expect.poll(focused).toBe("Rename Aspen");

  await page.keyboard.press("Enter");
  await page.keyboard.press("Enter");
  expect(await page.getByLabel("New name").count()).toBe(0);
  expect(await focused()).toBe("Rename Aspen");
  await page.keyboard.press("Enter");
  await page.keyboard.press("Escape");
  expect(await page.getByLabel("New name").count()).toBe(0);
  expect(await focused()).toBe("Rename Aspen");
  expect(app.complaints).toEqual([]);
  await app.close();
});

test("what is drawn goes to the drawing that is open, and each comes back as it was left", async () => {
  const app = await openApp();
  const { page } = app;
  await drawn(page);
  const example = await savedText(page);
  await newSheet(page);
  await setDown(page, "Pond", [600, 400]);
  const pond = await savedText(page);

  await page.keyboard.press("d");
  await word(page, "Courtyard bog filter").click();
  await heading(page, /^Courtyard/);
  expect(await savedText(page)).toBe(example);
  await page.keyboard.press("d");
  await kept(page)
    .getByRole("button", { name: /^Untitled|^Without a title|^New/ })
    .first()
    .click();
  await expect.poll(async () => (await saved(page)).parts.length).toBe(1);
  expect(await savedText(page)).toBe(pond);
  await app.close();
});

test("the whole browser killed right after an edit loses nothing", async () => {
  const app = await openApp();
  await drawn(app.page);
  await opened(app, "Kept");
  await setDown(app.page, "Pond", [700, 420]);
  await expect.poll(async () => (await saved(app.page)).parts.length).toBe(2);
  const before = await savedText(app.page);
  const context = app.page.context();
  const address = app.page.url();
  // A page that crashes gets no last word: no unload, no visibility change.
  const crash = await context.newCDPSession(app.page);
  await Promise.race([crash.send("Page.crash").catch(() => {}), app.page.waitForEvent("crash")]);

  const again = await secondWindow(context, address);
  expect(await savedText(again)).toBe(before);
  await app.close();
});

test("two windows on one drawing: neither overwrites the other, and both are told", async () => {
  const app = await openApp();
  const first = app.page;
  await drawn(first);
  await opened(app, "Shared");
  const second = await secondWindow(first.context(), first.url());
  await heading(second, /^Shared/);
  await expect
    .poll(() => second.getByRole("alert").allTextContents())
    .toEqual([expect.stringMatching(/another window/)]);

  await setDown(first, "Pond", [600, 420]);
  await expect.poll(() => second.getByRole("alert").textContent()).toMatch(/was changed in another window/);
  const firstText = await savedText(first);
  await setDown(second, "Vessel", [760, 420]);
  await expect.poll(() => second.getByRole("alert").textContent()).toMatch(/Nothing was overwritten.*of its own/);
  const secondText = await savedText(second);

  await first.reload();
  await drawn(first);
  expect(await savedText(first)).toBe(firstText);
  await second.reload();
  await drawn(second);
  expect(await savedText(second)).toBe(secondText);
  await second.keyboard.press("d");
  await expect.poll(async () => (await names(second)).filter((name) => name === "Shared").length).toBe(2);
  expect(app.complaints).toEqual([]);
  await app.close();
});

test("a window that made no change of its own can take over what the other one drew", async () => {
  const app = await openApp();
  await drawn(app.page);
  await opened(app, "Shared");
  const second = await secondWindow(app.page.context(), app.page.url());
  await setDown(app.page, "Pond", [600, 420]);
  await second.getByRole("button", { name: "Show what is there now" }).click();

  await expect.poll(async () => (await saved(second)).parts.map(({ kind }) => kind)).toEqual(["note", "pond"]);
  await app.close();
});

test("a drawing taken away in one window stays in the other", async () => {
  const app = await openApp();
  await drawn(app.page);
  await opened(app, "Shared");
  const second = await secondWindow(app.page.context(), app.page.url());
  await heading(second, /^Shared/);
  await app.page.keyboard.press("d");
  await word(app.page, "Take away Shared").click();
  await expect.poll(() => names(app.page)).not.toContain("Shared");
  await setDown(second, "Pond", [600, 420]);

  await expect.poll(() => second.getByRole("alert").textContent()).toMatch(/taken away in another window/);
  await expect.poll(() => names(app.page)).toContain("Shared");
  await app.close();
});

test("the same file opened twice lies on the shelf once", async () => {
  const app = await openApp();
  await drawn(app.page);
  await opened(app, "Alder");
  await opened(app, "Birch");
  await opened(app, "Alder");
  await app.page.keyboard.press("d");

  await expect.poll(() => names(app.page)).toEqual(["Birch", "Alder", "Courtyard bog filter"]);
  await app.close();
});
