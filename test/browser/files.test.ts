import { expect, test } from "vitest";
import { openApp, openDrawing } from "../support/app.ts";
import { drawn, newSheet, openText, saved, savedText } from "./sheet.ts";

const small = (title: string) =>
  JSON.stringify({
    format: "holdwater-section",
    version: 1,
    title,
    site: {},
    parts: [{ id: "n", kind: "note", x: 0, z: 0, text: '<b>&amp; "quotes"</b>' }],
  });

test("the first start shows the example, solved", async () => {
  const { page, complaints, close } = await openApp();
  await drawn(page);

  await expect
    .poll(() => page.getByRole("status").textContent(), { timeout: 8000 })
    .toMatch(/Holds its water.*delivers [\d,]+ L\/h/);
  expect(complaints).toEqual([]);
  await close();
});

test.each([
  ["broken.json", '{ "format": ', /was not opened/],
  ["version.json", '{"format":"holdwater-section","version":7,"title":"x","site":{},"parts":[]}', /version/],
  [
    "unknown.json",
    '{"format":"holdwater-section","version":1,"title":"x","site":{"colour":1},"parts":[]}',
    /site\.colour/,
  ],
  [
    "loose.json",
    '{"format":"holdwater-section","version":1,"title":"x","site":{},"parts":[{"id":"v","kind":"valve","on":{"pipe":"gone","at":1}}]}',
    /parts\[0\]\.on\.pipe/,
  ],
  ["picture.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>", /was not opened/],
] as const)("%s is refused in words and the open drawing stays", async (name, text, words) => {
  const { page, complaints, close } = await openApp();
  await drawn(page);
  const before = await savedText(page);

  await openText(page, name, text);

  const alert = page.getByRole("alert");
  await alert.waitFor();
  expect(await alert.textContent()).toMatch(words);
  expect(await savedText(page)).toBe(before);
  expect(complaints).toEqual([]);
  await close();
});

test("a drawing is opened with Ctrl O and saved without a difference", async () => {
  const { page, close } = await openApp();
  await drawn(page);
  await openDrawing(page, "samples/side-by-side.json");
  await page.getByRole("heading", { level: 1, name: /section drawing/ }).waitFor({ state: "attached" });

  const first = await savedText(page);
  await openText(page, "again.json", first);
  await page.waitForTimeout(200);

  expect(await savedText(page)).toBe(first);
  await close();
});

test("a drawing dropped on the sheet is opened", async () => {
  const { page, close } = await openApp();
  await drawn(page);

  const data = await page.evaluateHandle((text) => {
    const transfer = new DataTransfer();
    transfer.items.add(new File([text], "dropped.json", { type: "application/json" }));
    return transfer;
  }, small("Dropped"));
  await page.dispatchEvent(".desk", "drop", { dataTransfer: data });

  await page.getByRole("heading", { level: 1, name: /^Dropped/ }).waitFor({ state: "attached" });

  // Two at once, and what is no file at all, are refused.
  const refusals: [(text: string) => DataTransfer, RegExp][] = [
    [
      (text) => {
        const transfer = new DataTransfer();
        for (const name of ["one.json", "two.json"]) transfer.items.add(new File([text], name));
        return transfer;
      },
      /one drawing goes on the sheet at a time, and 2 files were dropped.*as it was/,
    ],
    [
      (text) => {
        const transfer = new DataTransfer();
        transfer.setData("text/plain", text);
        return transfer;
      },
      /what was dropped is no file.*as it was/,
    ],
  ];
  for (const [drop, words] of refusals) {
    await page.dispatchEvent(".desk", "drop", { dataTransfer: await page.evaluateHandle(drop, small("Other")) });
    await page.getByRole("alert").getByText(words).waitFor();
    expect((await saved(page)).title).toBe("Dropped");
  }
  await close();
});

test("what is on the sheet is there again after a reload", async () => {
  const { page, close } = await openApp();
  await drawn(page);
  await openText(page, "small.json", small("Kept"));
  await page.getByRole("heading", { level: 1, name: /^Kept/ }).waitFor({ state: "attached" });
  await page.waitForTimeout(300);
  const before = await savedText(page);

  await page.reload();
  await drawn(page);

  await page.getByRole("heading", { level: 1, name: /^Kept/ }).waitFor({ state: "attached" });
  expect(await savedText(page)).toBe(before);
  await close();
});

test("a new sheet can be left again for the drawing that lay there", async () => {
  const { page, close } = await openApp();
  await drawn(page);
  const before = await savedText(page);
  await newSheet(page);
  await page.getByRole("button", { name: /^Back to/ }).click();

  expect(await savedText(page)).toBe(before);
  await close();
});
