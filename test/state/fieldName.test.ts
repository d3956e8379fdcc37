import type { Draft } from "immer";
import { describe, expect, it } from "vitest";
import { fieldsOf } from "../../editor/panels/fields/index.ts";
import { fieldName } from "../../editor/sheet/fieldName.ts";
import { setField } from "../../editor/state/actions/setField.ts";
import { createDesk } from "../../editor/state/desk.ts";
import type { Part, Pond } from "../../hydraulics/index.ts";
import { checkValve, note, pipe, pond, pump, section, spillway, valve, vent, vessel } from "../support/builders.ts";

const parts: readonly Part[] = [
  pond(),
  vessel({ plan: { shape: "round", diameter: 0.8 } }),
  vessel({ plan: { shape: "rectangle", width: 0.8, length: 0.6 } }),
  pump(),
  pipe(),
  valve(),
  checkValve(),
  vent(),
  spillway(),
  note(),
];

/** Paths at which two values differ, as the reader writes them. */
function differences(a: unknown, b: unknown, path = ""): readonly string[] {
  if (a === b) return [];
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return [path];
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].flatMap((key) =>
    differences((a as never)[key], (b as never)[key], path === "" ? key : `${path}.${key}`),
  );
}

const shape = (part: Part): string => (part.kind === "vessel" ? `${part.plan.shape} vessel` : part.kind);

describe("what a field is called in a message", () => {
  for (const part of parts)
    it(`is what its line on the slip says: ${shape(part)}`, () => {
      let lines = 0;
      for (const field of fieldsOf[part.kind]) {
        if (field.kind !== "quantity" && field.kind !== "number" && field.kind !== "text") continue;
        if (field.shownFor?.(part) === false) continue;
        const changed = structuredClone(part);
        // A value that no builder gives; what is typed is not judged here.
        field.set(changed as never, (field.kind === "text" ? "other words" : 0.123456) as never);
        const paths = differences(part, changed);
        expect(paths.length, field.label).toBe(1);
        expect(fieldName(part.kind, paths[0] as string)).toBe(field.label);
        lines++;
      }
      expect(lines).toBeGreaterThan(0);
    });

  it("counts layers, points and fittings from one, as the slips do", () => {
    expect(fieldName("vessel", "media[0].depth")).toBe("Depth of layer 1 from the base");
    expect(fieldName("pump", "curve[2][1]")).toBe("Head of point 3");
    expect(fieldName("pipe", "fittings[1].k")).toBe("K of fitting 2");
  });

  it("is the path itself where no slip shows the field", () => {
    expect(fieldName("pond", "nowhere.known")).toBe("nowhere.known");
  });

  it("stands in the refusal of what was typed", () => {
    const pondHere = pond();
    const changed = setField(section([pondHere]), [pondHere.id], "Rim", (part) => {
      (part as { rimLevel: number }).rimLevel = 1000;
    });
    expect(changed.ok).toBe(false);
    expect(!changed.ok && changed.why).toMatch(/, Rim level: expected a level/);
  });
});

describe("a refusal's figures", () => {
  const refusedIn = (system: "metric" | "us", change: (pond: Draft<Pond>) => void): string => {
    const desk = createDesk(() => 0, section([pond()]));
    desk.look((view) => ({ ...view, units: system }));
    const id = pond().id;
    const done = desk.apply(
      setField(desk.get().section, [id], "Change", (part) => part.kind === "pond" && change(part)),
    );
    expect(done).toBe(false);
    return desk.get().message?.text ?? "";
  };
  const { bedLevel } = pond();

  it("are in the units that the sheet shows", () => {
    const tooHigh = (draft: Draft<Pond>) => {
      draft.rimLevel = 1000;
    };
    expect(refusedIn("metric", tooHigh)).toMatch(/from −100 m to \+100 m, found 1000 m\.$/);
    expect(refusedIn("us", tooHigh)).toMatch(/from −328\.08 ft to \+328\.08 ft, found 3280\.84 ft\.$/);
    const underBed = (draft: Draft<Pond>) => {
      draft.rimLevel = bedLevel - 0.3048;
    };
    expect(refusedIn("us", underBed)).toMatch(/a rim above the bed, which lies at −?[\d.]+ ft, found −?[\d.]+ ft\.$/);
  });

  it("never round what was found to what was wanted", () => {
    const words = refusedIn("metric", (draft) => {
      draft.rimLevel = bedLevel - 0.0004;
    });
    const [, wanted, found] = /lies at (\S+) m, found (\S+) m\.$/.exec(words) ?? [];
    expect(wanted).not.toBe(undefined);
    expect(found).not.toBe(wanted);
  });
});
