/** The library runs unchanged in a worker, on the command line and in a test, and gives the same answer each time. */
import { expect, test } from "vitest";
import { codeOnly, sourcesOf, textOf } from "./sources.ts";

const forbidden: Readonly<Record<string, RegExp>> = {
  "Math.random": /\bMath\s*\.\s*random\b/,
  crypto: /(?<![.\w])crypto\s*\./,
  Date: /(?<![.\w])Date\b/,
  performance: /(?<![.\w])performance\s*\./,
  timers: /(?<![.\w])(?:setTimeout|setInterval|requestAnimationFrame)\s*\(/,
  window: /(?<![.\w])window\s*[.[]/,
  globalThis: /(?<![.\w])globalThis\b/,
  console: /(?<![.\w])console\b/,
  process: /(?<![.\w])process\s*\./,
};

/** `document` is also a good name for what a user drew: the page's own is meant where a file declares none. */
function touchesPage(code: string): boolean {
  const used = /(?<![.\w])document\s*[.[]/.test(code);
  const declared = /\b(?:const|let|function)\s+document\b|[({,]\s*document\s*[:,)}=]/.test(code);
  return used && !declared;
}

function impuritiesIn(text: string): string[] {
  const code = codeOnly(text);
  const found = Object.entries(forbidden).flatMap(([name, pattern]) => (pattern.test(code) ? [name] : []));
  return touchesPage(code) ? [...found, "document"] : found;
}

test("no clock, no chance, no page and no console inside the library", () => {
  const impure = sourcesOf("hydraulics")
    .filter((file) => file !== "hydraulics/check.ts")
    .flatMap((file) => impuritiesIn(textOf(file)).map((name) => `${file} uses ${name}`));

  expect(impure).toEqual([]);
});

// The compiler is the stronger guard: without these libraries the names do not exist there at all.
test("the library compiles without the page's and Node's types", () => {
  const { compilerOptions } = JSON.parse(textOf("hydraulics/tsconfig.json"));
  const base = JSON.parse(textOf(".tsconfig.base.json"));

  expect(compilerOptions.lib).toEqual(["ES2023"]);
  expect(compilerOptions.types ?? base.compilerOptions.types).toEqual([]);
});

test.each([
  ["const a = Math.random();", ["Math.random"]],
  ["const at = new Date();", ["Date"]],
  ["console.log(1);", ["console"]],
  ["window.open();", ["window"]],
  ['document.querySelector("a");', ["document"]],
  ["const said = `at ${Date.now()}`;", ["Date"]],
  ["const read = (document: Section) => document.parts;", []],
  ["// The Date of the survey, console.log and window.open\nconst a = 1;", []],
  ['const said = "console.log(Date)";', []],
])("`%s` is seen for what it is", (text, expected) => {
  const found = impuritiesIn(text);

  expect(found).toEqual(expected);
});
