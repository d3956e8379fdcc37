/** The JSON reader against the engine's own, which follows RFC 8259 and ECMA-404. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { parseJson } from "../../hydraulics/document/shape/parseJson.ts";

const seed = 20_260_101;

/** The engine's answer, or `refused`. */
function engine(text: string): unknown {
  try {
    return { value: JSON.parse(text) };
  } catch {
    return "refused";
  }
}
const ours = (text: string): unknown => {
  const read = parseJson(text);
  return read.ok ? { value: read.value } : "refused";
};

it("reads what the engine writes, to the same values", () => {
  fc.assert(
    fc.property(fc.jsonValue({ maxDepth: 8 }), fc.constantFrom(0, 2, "\t"), (value, space) => {
      const text = JSON.stringify(value, null, space);

      expect(ours(text)).toStrictEqual(engine(text));
    }),
    { seed, numRuns: 2000 },
  );
});

it("accepts and refuses the same texts, one character changed anywhere", () => {
  const character = fc.constantFrom(...'{}[]",:\\ \n\t0123456789.-+eEtrufalsn/bx\u0001é');
  fc.assert(
    fc.property(fc.jsonValue({ maxDepth: 3 }), fc.nat(), character, fc.boolean(), (value, at, put, replace) => {
      const text = JSON.stringify(value);
      const place = at % (text.length + 1);
      const changed = text.slice(0, place) + put + text.slice(place + (replace ? 1 : 0));
      // A field given twice is refused here and read by the engine: the one known difference at this depth.
      const read = parseJson(changed);
      if (!read.ok && read.error.every((problem) => problem.expected === "each field once")) return;

      expect(ours(changed)).toStrictEqual(engine(changed));
    }),
    { seed, numRuns: 5000 },
  );
});

it.each([
  "-0",
  "1e5",
  "1E-2",
  "0.5",
  "1e400",
  '"\\u00e9\\ud83d\\ude00\\n"',
  '{"__proto__":1}',
  "[]",
  " null ",
  "-",
  "1.",
  ".5",
  "+1",
  "0x1",
  "'a'",
  '"\t"',
  "nul",
  "[1,]",
  '{"a":1,}',
  "NaN",
  "//x",
])("agrees with the engine on %s", (text) => {
  expect(ours(text)).toStrictEqual(engine(text));
});

it("skips one byte order mark at the start of a file", () => {
  expect(ours("\ufeff[1]")).toEqual({ value: [1] });
  expect(ours("\ufeff\ufeff[1]")).toBe("refused");
});
