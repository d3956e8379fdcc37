/** What a report calls a part that has no label. */
import { describe, expect, it } from "vitest";
import { named, withoutGivenNames } from "../../hydraulics/document/named.ts";
import {
  checkValve,
  flushPipe,
  flushValve,
  loopedSupply,
  pipe,
  pond,
  pump,
  section,
  vent,
} from "../support/builders.ts";

const namesOf = (...parts: Parameters<typeof section>[0]): readonly (string | undefined)[] =>
  [...named(section(parts)).parts.values()].map(({ label }) => label);

describe("a part without a label is called", () => {
  it("by its kind where it is the only one and its id says no more", () => {
    expect(namesOf(pond(), pump({ label: "Lift" }), checkValve({ id: "check-valve" }))).toEqual([
      "the pond",
      "Lift",
      "the check valve",
    ]);
  });

  it("by its kind and number where there are several", () => {
    expect(namesOf(pipe({ id: "pipe" }), pipe({ id: "pipe-2" }), pipe({ id: "7" }), pipe({ id: "x4" }))).toEqual([
      "pipe 1",
      "pipe 2",
      "pipe 7",
      "pipe x4",
    ]);
  });

  it("by the words of its id where it has some", () => {
    expect(namesOf(flushPipe({ id: "purge-line" }), flushValve({ label: "  " }), vent({ id: "breather" }))).toEqual([
      "purge line",
      "flush valve",
      "breather",
    ]);
  });
});

it("a drawing keeps its own labels, and loses those that were given", () => {
  const drawing = loopedSupply();
  const made = named(drawing);
  expect([...made.parts.values()].every(({ label }) => label)).toBe(true);

  const back = withoutGivenNames(made, drawing);

  expect([...back.parts]).toEqual([...drawing.parts]);
});
