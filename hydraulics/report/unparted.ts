/** Words whose figures keep to their units at the end of a line: the space between them, and within `1 ft 7 7/8 in` or
 * `2 h 10 min`, is one at which no line breaks. For pages;
 * on the drawing and in a terminal lines are broken otherwise. */
const unit = String.raw`(?:mm\/m|mm|cm|m³\/s|m³\/h|m\/s|m\/h|m³|m²|m|L\/h|L\/min|L\/s|L|kg|kPa|kWh|kW|W|°C|°F|%|×|ft\/100 ft|ft\/s|ft\/h|ft|in|gph|gpm|gal|psi|lb\/ft²|lb|s|min|h|MiB)`;
const space = "\u00a0";

const beforeUnit = new RegExp(`(?<=\\d) (?=${unit}(?![\\p{L}\\d/]))`, "gu");
/** between the terms of one figure */
const within = /(?<=\d\u00a0(?:ft|h)) (?=\d)|(?<=\d) (?=\d+\/\d+\u00a0in\b)/gu;

export const unparted = (text: string): string => text.replace(beforeUnit, space).replace(within, space);
