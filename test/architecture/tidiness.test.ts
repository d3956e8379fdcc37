/** What lies in the repository: nothing of the machine it was written on, and nothing unexpected at its top. */
import { readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { filesOf, root, textOf } from "./sources.ts";

const topLevel = [
  "DEVELOPERS.md",
  "LICENSE",
  "README.md",
  "editor",
  "hydraulics",
  "node_modules",
  "package-lock.json",
  "package.json",
  "samples",
  "test",
  "tsconfig.json",
];

// A path below somebody's home or working folder, and the host of a package registry.
const machinePath = /(?<![\w.)])\/(?:home|Users|root|work|tmp)\/|\b[A-Z]:\\+Users\\/;
const registry = /\bregistry\.[a-z]+\.[a-z]+|\bnpm[j]s\b/;

test("the top level holds what it is meant to hold", () => {
  const unexpected = readdirSync(root).filter((name) => !name.startsWith(".") && !topLevel.includes(name));

  expect(unexpected).toEqual([]);
});

test("no file names a path of one machine or a package registry", () => {
  const marked = filesOf().filter((file) => {
    const text = textOf(file);
    return machinePath.test(text) || registry.test(text);
  });

  expect(marked).toEqual([]);
});

test.each([
  [["", "home", "anna", "pond.json"].join("/"), true],
  [["C:", "Users", "anna"].join("\\"), true],
  [`https://${["registry", "example", "org"].join(".")}/a`, true],
  ["../worker/solve.ts", false],
  ["/usr/bin/chromium", false],
])("`%s` is told apart", (text, marked) => {
  const found = machinePath.test(text) || registry.test(text);

  expect(found).toBe(marked);
});
