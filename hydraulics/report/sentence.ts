/** Sentences of results are written in metres and litres, whoever reads them: they are made once, where the numbers
 * are, and a reader in feet and gallons gets the same sentences with their figures turned. Touched are figures that
 * carry their unit, first figures of ranges, which borrow theirs (`0.3 to 1.5 m/h`), and levels with their sign
 * (`+0.474`). A reader in metres gets litres, and litres an hour, rounded as they are beside the sentence:
 * 2,112 L is `2,110 L`.
 *
 * What a person has written is not ours to turn: a label such as `50 mm return` stays. So sentences about a drawing are
 * said by `sentencesOf`, which knows its labels. */
import type { Section } from "../document/section.ts";
import { foot } from "../formulas/units.ts";
import { started } from "../powerCut/words.ts";
import {
  formatBore,
  formatFlow,
  formatLength,
  formatLevel,
  formatLevelUnit,
  formatLoad,
  formatMass,
  formatNumber,
  formatTemperature,
  formatVelocity,
  formatVolume,
  type UnitSystem,
} from "./formats.ts";
import { plain } from "./plain.ts";

const amount = String.raw`\d[\d,]*(?:\.\d+)?`;
const unit = "(L/h|m³/h|m/h|m/s|mm|m³|L|m|kg|kPa|°C)(?![\\p{L}\\d/³²])";
const range = new RegExp(`(${amount}) (to|and|of|from) (${amount}) ${unit}`, "gu");
/** A level's own metre, where it carries one, goes with it. */
const figure = new RegExp(`([+−±]\\d+\\.\\d{3})(?!\\d|\\.\\d)( m(?![\\p{L}\\d/³²]))?|(${amount}) ${unit}`, "gu");

export type Says = (text: string) => string;

/** Sentences about a drawing, in the reader's units. */
export function sentencesOf(section: Section, system: UnitSystem): Says {
  if (system === "metric") return (text) => (litres.test(text) ? split(text, namesToKeep(section), rounded) : text);
  const names = namesToKeep(section);
  return (text) => sentenceIn(text, system, names);
}

/** Words of results keep a digit more than is shown; of less than a tenth of a litre all of them. */
const litres = new RegExp(`(${amount}) (L(?:/h)?)(?![\\p{L}\\d/])`, "u");
const allLitres = new RegExp(litres, "gu");
const leastRounded = 0.1;

const rounded = (text: string): string =>
  text.replace(allLitres, (whole: string, figures: string, of: string) => {
    const value = Number(figures.replaceAll(",", ""));
    return value >= leastRounded ? amountIn(value, of, "metric", whole) : whole;
  });

/** @param names stay as they are; none in a sentence that speaks of no drawing */
export function sentenceIn(text: string, system: UnitSystem, names: readonly string[]): string {
  return system === "metric" ? text : split(text, names, (part) => turned(part, system));
}

/** What lies between the names, changed. */
function split(text: string, names: readonly string[], change: Says): string {
  if (names.length === 0) return change(text);
  const whole = names.map((name) => name.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&")).join("|");
  return text
    .split(new RegExp(`(?<![\\p{L}\\d.,])(${whole})(?![\\p{L}\\d])`, "u"))
    .map((part, i) => (i % 2 === 1 ? part : change(part)))
    .join("");
}

function turned(text: string, system: UnitSystem): string {
  return text
    .replace(range, (_, first, word, second, of) => `${first} ${of} ${word} ${second} ${of}`)
    .replace(figure, (whole: string, level?: string, metre?: string, figures?: string, of?: string) => {
      if (level !== undefined) {
        const metres = Number(level.replace("−", "-").replace(/[+±]/, ""));
        return metre === undefined ? formatLevel(metres, system) : formatLevelUnit(metres, system);
      }
      const value = Number((figures ?? "").replaceAll(",", ""));
      return Number.isFinite(value) ? amountIn(value, of ?? "", system, whole) : whole;
    });
}

function amountIn(value: number, of: string, system: UnitSystem, asItWas: string): string {
  switch (of) {
    case "L/h":
      return formatFlow(value / 3.6e6, system);
    case "m³/h":
      return formatFlow(value / 3600, system);
    case "m/h":
      return `${formatNumber(value / foot, 3, 2)} ft/h`;
    case "m/s":
      return formatVelocity(value, system);
    case "mm":
      return formatBore(value / 1000, system);
    case "m³":
      return formatVolume(value, system);
    case "L":
      return formatVolume(value / 1000, system);
    case "m":
      return formatLength(value, system);
    case "kg":
      return formatMass(value, system);
    case "kPa":
      return formatLoad(value * 1000, system);
    case "°C":
      return formatTemperature(value, system);
    default:
      return asItWas;
  }
}

/** Letters after which the reports and the findings cut a name. */
const cuts = [27, 39];

/** The drawing's own words in which a figure would be turned, whole and as sentences cut them,
 * the longest first: one may hold another. */
function namesToKeep(section: Section): readonly string[] {
  const known = namesKept.get(section);
  if (known) return known;
  const names = namesIn(section);
  namesKept.set(section, names);
  return names;
}

/** Sections do not change: every slip and every label that is painted asks for the same one's names. */
const namesKept = new WeakMap<Section, readonly string[]>();

function namesIn(section: Section): readonly string[] {
  const kept = new Set<string>();
  for (const { label } of section.parts.values()) {
    if (label === undefined || turned(label, "us") === label) continue;
    for (const whole of [label, plain(label)])
      for (const name of [whole, ...cuts.map((cut) => [...whole].slice(0, cut).join("").trimEnd())])
        if (name.trim() !== "") kept.add(name).add(started(name));
  }
  return [...kept].sort((a, b) => b.length - a.length);
}
