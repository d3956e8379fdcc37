/** Reading what was written gives the same drawing. */
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { kinds } from "../../hydraulics/document/kinds/index.ts";
import { readSection, readSectionValue } from "../../hydraulics/document/read.ts";
import type { Part, PartId } from "../../hydraulics/document/section.ts";
import { fileOf, writeSection } from "../../hydraulics/document/write.ts";
import { note, pond, section } from "../support/builders.ts";
import { anySection } from "../support/randomSection.ts";

const seed = 20_260_102;

function read(text: string) {
  const result = readSection(text);
  if (!result.ok) throw new Error(JSON.stringify(result.error, null, 1));
  return result.value;
}

describe.each(["../scenarios/design", "../../samples"])("every drawing in %s", (folder) => {
  const directory = new URL(`${folder}/`, import.meta.url);
  const files = readdirSync(directory).filter((name) => name.endsWith(".json"));

  it("is there", () => {
    expect(files.length).toBeGreaterThanOrEqual(4);
  });

  it.each(files)("%s opens, and a round trip changes nothing", (name) => {
    const text = readFileSync(new URL(name, directory), "utf8");

    const written = writeSection(read(text));

    expect(JSON.parse(written)).toStrictEqual(JSON.parse(text));
    expect(writeSection(read(written))).toBe(written);
  });
});

it("a random drawing is the same after writing and reading", () => {
  fc.assert(
    fc.property(anySection("any", 8), ({ section: drawn }) => {
      const again = read(writeSection(drawn));

      expect(again).toEqual(drawn);
      expect([...again.parts.keys()]).toEqual([...drawn.parts.keys()]);
    }),
    { seed, numRuns: 400 },
  );
});

it("a value out of a random drawing survives JSON", () => {
  fc.assert(
    fc.property(anySection("any"), ({ section: drawn }) => {
      const text = writeSection(drawn);

      const again = readSectionValue(JSON.parse(text));

      expect(again.ok && writeSection(again.value)).toBe(text);
    }),
    { seed, numRuns: 100 },
  );
});

it("the value says what the text says: where a field is wrong, too, and where one is there but undefined", () => {
  let refused = 0;
  fc.assert(
    fc.property(
      anySection("any", 8),
      fc.nat(),
      fc.nat(),
      fc.constantFrom(undefined, -1e9, 1e9, 0, "words", true, []),
      ({ section: drawn }, which, where, odd) => {
        const parts = [...drawn.parts.values()];
        const part = parts[which % parts.length] as Part;
        const names = Object.keys(part).filter((name) => name !== "rank");
        const broken = { ...part, [names[where % names.length] as string]: odd } as Part;
        const other = { ...drawn, parts: new Map(drawn.parts).set(part.id, broken) };

        const byText = readSection(writeSection(other));

        expect(readSectionValue(fileOf(other))).toEqual(byText);
        if (!byText.ok) refused += 1;
      },
    ),
    { seed, numRuns: 400 },
  );
  expect(refused).toBeGreaterThan(100);
});

it("parts stand in the order of their rank, not of the map", () => {
  const drawn = section([pond({ id: "a" }), pond({ id: "b" }), pond({ id: "c" })]);
  const [a, b, c] = [...drawn.parts.values()] as [Part, Part, Part];
  const undone = {
    ...drawn,
    parts: new Map<PartId, Part>([
      [a.id, a],
      [c.id, c],
      [b.id, b],
    ]),
  };

  expect(writeSection(undone)).toBe(writeSection(drawn));
});

it("fields stand in the order of the kind's table, whatever order the part has them in", () => {
  const shuffled = section([
    {
      waterLevel: 0,
      rimLevel: 0.1,
      bedLevel: -1,
      length: 1,
      width: 2,
      x: 0,
      kind: "pond",
      id: "pond" as PartId,
      rank: 0,
    },
  ]);

  const written = JSON.parse(writeSection(shuffled));

  expect(Object.keys(written.parts[0])).toEqual([
    "id",
    "kind",
    "x",
    "width",
    "length",
    "bedLevel",
    "rimLevel",
    "waterLevel",
  ]);
});

it("the one order of fields agrees with the table of every kind", () => {
  for (const [kind, { fields }] of Object.entries(kinds)) {
    // Values do not matter here: only the order in which names come out.
    const part = Object.fromEntries(
      Object.keys(fields)
        .toReversed()
        .map((name) => [name, 1]),
    );
    const drawn = section([{ ...part, id: "x", rank: 0 } as unknown as Part]);

    const written = JSON.parse(writeSection(drawn));

    expect(Object.keys(written.parts[0]), kind).toEqual(Object.keys(fields));
  }
});

it("points, ends and layers stay on a line", () => {
  const written = writeSection(section([note({ text: 'A "quoted" <b>\u2028' })], { title: "Ä" }));

  expect(written).toContain('"text": "A \\"quoted\\" <b>\u2028"');
  expect(written.endsWith("}\n")).toBe(true);
});

it("a number that is not finite is a broken promise, not a file", () => {
  expect(() => writeSection(section([pond({ width: Number.NaN })]))).toThrow("finite");
});
