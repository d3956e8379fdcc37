import { expect, test } from "vitest";
import { openApp } from "../support/app.ts";

test("the built page starts, fills its sheet and complains of nothing", async () => {
  const app = await openApp();

  await app.page.locator("#sheet > *").first().waitFor({ state: "attached" });

  expect(await app.page.title()).toBe("Holdwater");
  expect(await app.page.locator("#sheet").textContent()).not.toBe("");
  expect(app.complaints).toEqual([]);
  await app.close();
});

test("the built page states its content rules and runs no script from elsewhere", async () => {
  const app = await openApp();

  const rules = await app.page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute("content");
  const ran = await app.page.evaluate(() => {
    const script = document.createElement("script");
    script.textContent = "globalThis.ranInline = true";
    document.head.append(script);
    return "ranInline" in globalThis;
  });

  expect(rules).toContain("default-src 'none'");
  expect(ran).toBe(false);
  await app.close();
});
