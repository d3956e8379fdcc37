/** What stands in the fields of a part's slip, or of the drawing's own, line by line: to lay two states side by side. */
import { joinedTo, numberFields, type Part, type Pipe, type Section, siteOf } from "../../../hydraulics/index.ts";
import { partNameById } from "../../sheet/partName.ts";
import { exactText, formatLevelUnit, type UnitSystem } from "../../sheet/units.ts";
import type { Field } from "../fields/field.ts";
import { fieldsOf } from "../fields/index.ts";
import { fittingWords, mouthWords } from "../fields/pipeWords.ts";
import { exactQuantity, showNumber, showQuantity } from "../quantity.ts";
import { sweptExact, sweptText } from "./shownAs.ts";

export interface PartLine {
  readonly label: string;
  /** what the reader sees */
  readonly shown: string;
  /** with every digit that counts: where two that differ are shown alike */
  readonly exact: string;
}

const nothing = "—";
const plain = (label: string, text: string): PartLine => ({ label, shown: text || nothing, exact: text || nothing });

export const linesOf = (section: Section, part: Part, units: UnitSystem): readonly PartLine[] =>
  fieldsOf[part.kind].flatMap((field) =>
    field.shownFor && !field.shownFor(part) ? [] : linesOfField(section, part, field, units),
  );

function linesOfField(section: Section, part: Part, field: Field<Part>, units: UnitSystem): readonly PartLine[] {
  const { label } = field;
  switch (field.kind) {
    case "quantity": {
      const value = field.get(part) ?? field.optional?.(part, section) ?? null;
      if (value === null) return [plain(label, "not given")];
      const { quantity } = field;
      return [{ label, shown: showQuantity(quantity, value, units), exact: exactQuantity(quantity, value, units) }];
    }
    case "number": {
      const value = field.get(part) ?? field.optional?.(part, section) ?? null;
      return [plain(label, value === null ? "not given" : showNumber(value, field.percent))];
    }
    case "text":
      return [plain(label, field.get(part))];
    case "choice": {
      const chosen = field.get(part);
      return [plain(label, field.options(part, section).find(([option]) => option === chosen)?.[1] ?? chosen)];
    }
    case "size":
      return part.kind === "pipe" ? [plain(label, part.nominal ?? "")] : [];
    case "end":
      return part.kind === "pipe" && field.which
        ? [endLine(section, label, { pipe: part, side: field.which }, units)]
        : [];
    case "bends":
      return part.kind === "pipe" ? [bendsLine(part)] : [];
    case "curve":
      return numbersUnder(section, part, ["curve", "maxFlow", "maxHead"], units);
    case "media":
      return numbersUnder(section, part, ["media"], units);
    case "fittings":
      return part.kind === "pipe" ? fittingLines(section, part, units) : [];
  }
}

/** Numbers that a slip has in a table. */
function numbersUnder(section: Section, part: Part, keys: readonly string[], units: UnitSystem): readonly PartLine[] {
  return numberFields(section, part).flatMap(({ path, label, quantity, value }) =>
    value !== null && keys.includes(String(path[0]))
      ? [{ label, shown: sweptText(quantity, value, units), exact: sweptExact(quantity, value, units) }]
      : [],
  );
}

function fittingLines(section: Section, pipe: Pipe, units: UnitSystem): readonly PartLine[] {
  const names = new Map(fittingWords);
  return [
    ...(pipe.fittings ?? []).map(({ type }, k) => plain(`Fitting ${k + 1}`, names.get(type) ?? type)),
    ...numbersUnder(section, pipe, ["fittings"], units),
  ];
}

/** How many there are, and where. */
function bendsLine({ route = [] }: Pipe): PartLine {
  const count = route.length === 1 ? "1 bend" : `${route.length} bends`;
  return { label: "Bends", shown: count, exact: `${count}, ${route.map(([x, z]) => `${x} ${z}`).join(", ")}` };
}

interface EndOf {
  readonly pipe: Pipe;
  readonly side: "from" | "to";
}

function endLine(section: Section, label: string, { pipe, side }: EndOf, units: UnitSystem): PartLine {
  const end = pipe[side];
  const joined = [...new Set(joinedTo(section, { pipe: pipe.id, side }).map((each) => each.pipe))];
  const where =
    joined.length > 0 ? `carried on by ${joined.map((id) => partNameById(section, id)).join(", ")}` : "in the air";
  const say = (level: (z: number) => string, length: (x: number) => string): string => {
    if ("open" in end) return `${where} at ${level(end.z)}, ${length(end.x)} along the sheet`;
    if ("pipe" in end) return `a tee in ${partNameById(section, end.pipe)}, ${length(end.at)} from its start`;
    const mouth = mouthWords.find(([each]) => each === (end.mouth ?? "side"))?.[1];
    return [
      partNameById(section, end.part),
      ...(end.z === undefined ? [] : [`at ${level(end.z)}`, mouth]),
      ...(end.x === undefined ? [] : [`${length(end.x)} along the sheet`]),
    ].join(", ");
  };
  return {
    label,
    shown: say(
      (z) => formatLevelUnit(z, units),
      (x) => showQuantity("length", x, units),
    ),
    exact: say(
      (z) => exactText("level", z, units),
      (x) => exactText("length", x, units),
    ),
  };
}

/** Of the drawing as a whole. */
export function linesOfDrawing(section: Section, units: UnitSystem): readonly PartLine[] {
  const { currency, friction } = siteOf(section);
  return [
    plain("Title", section.title),
    plain("Friction by", friction === "hazen-williams" ? "Hazen-Williams" : "Darcy-Weisbach"),
    plain("Currency", currency),
    ...numberFields(section, null).flatMap(({ label, quantity, value }) =>
      value === null
        ? []
        : [{ label, shown: sweptText(quantity, value, units), exact: sweptExact(quantity, value, units) }],
    ),
  ];
}
