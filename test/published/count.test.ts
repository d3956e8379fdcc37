import { existsSync } from "node:fs";
import { expect, test } from "vitest";
import { entryCount, published } from "./hold.ts";
import { allChecks } from "./laws/index.ts";

test("every published value is held against a law of ours, once", () => {
  const held = Object.values(allChecks).flatMap((checks) => Object.keys(checks));

  expect(published.size, "two entries of one id").toBe(entryCount);
  expect(held.length, "an id in two tables").toBe(new Set(held).size);
  expect(
    [...published.keys()].filter((id) => !held.includes(id)),
    "held by nothing",
  ).toEqual([]);
  expect(
    held.filter((id) => !published.has(id)),
    "not in published.json",
  ).toEqual([]);
  expect(held.length).toBe(302);
});

test("every table of checks is run by the test file of its name", () => {
  for (const name of Object.keys(allChecks))
    expect(existsSync(new URL(`./${name}.test.ts`, import.meta.url)), name).toBe(true);
});
