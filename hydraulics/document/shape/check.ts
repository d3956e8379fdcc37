/** Small checkers of untrusted values. Each gives the value as its type, copied, or says what is wrong with it
 * and gives undefined. Nothing is coerced: a number in quotes is not a number. */
import { most, type Range } from "../limits.ts";
import type { Amounts } from "../section.ts";
import { asInFile } from "./amounts.ts";
import { inside, type Place } from "./place.ts";
import type { Problems } from "./problems.ts";

export type Check<T> = (value: unknown, at: Place | null, problems: Problems) => T | undefined;

/** What a range asks for, in words. */
export const rangeWords =
  ({ what, min, max, measure, inFile }: Range) =>
  (amounts: Amounts): string => {
    const named = inFile !== undefined && amounts === asInFile ? `${what} ${inFile}` : what;
    return `${named} from ${amounts.range(min, max, measure)}`;
  };

export function number(range: Range): Check<number> {
  const expected = rangeWords(range);
  const { measure } = range;
  return (value, at, problems) => {
    if (typeof value === "number" && value >= range.min && value <= range.max) return value + 0; // −0 becomes 0
    problems.addNumber(at, expected, value, measure);
    return undefined;
  };
}

export function wholeNumber(range: Range): Check<number> {
  const check = number(range);
  return (value, at, problems) => {
    if (typeof value !== "number" || Number.isInteger(value)) return check(value, at, problems);
    problems.addNumber(at, rangeWords(range), value, range.measure);
    return undefined;
  };
}

export function oneOf<T extends string>(...words: readonly T[]): Check<T> {
  const expected = words.length === 1 ? `"${words[0]}"` : `one of ${words.map((word) => `"${word}"`).join(", ")}`;
  return (value, at, problems) => {
    const known = words.find((word) => word === value);
    if (known === undefined) problems.add(at, expected, value);
    return known;
  };
}

export const yesOrNo: Check<boolean> = (value, at, problems) => {
  if (typeof value === "boolean") return value;
  problems.add(at, "true or false", value);
  return undefined;
};

/** Plain text. Control characters and halves of surrogate pairs have no place in it: no XML may hold them,
 * so a drawing with one could not be handed out. */
export const text: Check<string> = (value, at, problems) => {
  if (typeof value !== "string") problems.add(at, "text", value);
  else if (value.length > most.text && [...value].length > most.text) {
    problems.addWords(at, `text of at most ${most.text} characters`, `${[...value].length} characters`);
  } else if (holdsUnprintable(value)) problems.add(at, "text without control characters", value);
  else return value;
  return undefined;
};

function holdsUnprintable(value: string): boolean {
  for (const character of value) {
    const code = character.codePointAt(0) as number;
    if (code < 0x20 && code !== 0x09 && code !== 0x0a && code !== 0x0d) return true;
    if ((code >= 0xd800 && code <= 0xdfff) || code === 0xfffe || code === 0xffff) return true;
  }
  return false;
}

/** A list; `what` is what it holds, in the plural. */
export function list<T>(check: Check<T>, { what, min, max }: { what: string; min: number; max: number }): Check<T[]> {
  const expected = `a list of ${min === 0 ? "at most" : `${min} to`} ${max} ${what}`;
  return (value, at, problems) => {
    if (!Array.isArray(value) || value.length < min || value.length > max) {
      problems.add(at, expected, value);
      return undefined;
    }
    const read: T[] = [];
    for (let i = 0; i < value.length; i++) {
      const member = check(value[i], inside(at, i), problems);
      if (member !== undefined) read.push(member);
    }
    return read.length === value.length ? read : undefined;
  };
}

/** Two numbers in a list; `what` says which. */
export function pair(what: string, first: Check<number>, second: Check<number>): Check<readonly [number, number]> {
  return (value, at, problems) => {
    if (!Array.isArray(value) || value.length !== 2) {
      problems.add(at, what, value);
      return undefined;
    }
    const a = first(value[0], inside(at, 0), problems);
    const b = second(value[1], inside(at, 1), problems);
    return a === undefined || b === undefined ? undefined : [a, b];
  };
}

interface Needed<T> {
  readonly check: Check<T>;
  readonly needed: true;
}
interface Optional<T> {
  readonly check: Check<T>;
  readonly needed: false;
}
export const needs = <T>(check: Check<T>): Needed<T> => ({ check, needed: true });
export const may = <T>(check: Check<T>): Optional<T> => ({ check, needed: false });

/** A checker for every field of T, and none besides; which fields may be absent has to agree with T. */
export type Fields<T> = {
  readonly [K in keyof T]-?: Partial<Pick<T, K>> extends Pick<T, K> ? Optional<Required<T>[K]> : Needed<T[K]>;
};

export const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** An object with these fields and no others; `what` names it with its article. The copy has its fields in the
 * order of the table. Own fields only: an id or field called `constructor` finds nothing on a prototype. */
export function object<T>(what: string, fields: Fields<T>): Check<T> {
  const table: readonly (readonly [string, Needed<unknown> | Optional<unknown>])[] = Object.entries(fields);
  const known = new Set(table.map(([name]) => name));
  return (value, at, problems) => {
    if (!isObject(value)) {
      problems.add(at, what, value);
      return undefined;
    }
    const read: Record<string, unknown> = {};
    let complete = true;
    for (const [name, { check, needed }] of table) {
      const given = Object.hasOwn(value, name) ? value[name] : undefined;
      if (given === undefined && !needed) continue;
      const field = check(given, inside(at, name), problems);
      if (field === undefined) complete = false;
      else read[name] = field;
    }
    for (const name of Object.keys(value)) {
      if (known.has(name)) continue;
      problems.addWords(
        inside(at, name),
        `no such field: ${what} has ${[...known].join(", ")}`,
        "a field of that name",
      );
    }
    return complete ? (read as T) : undefined;
  };
}
