/** The words of a sentence for breaking it into lines. A figure and its unit are one word (`0.582 m`, `2 ft 7 1/2 in`,
 * `3.2 ×`): a line that ends between them is read wrong. */
export function unbroken(text: string): readonly string[] {
  const words: string[] = [];
  let before = "";
  for (const word of text.split(" ")) {
    if (word === "") continue;
    if (before !== "" && holds(before, word)) words.push(`${words.pop()} ${word}`);
    else words.push(word);
    before = word;
  }
  return words;
}

const number = /^[("+−±Ø]*\d[\d.,]*(?:\/\d+)?$/u;
const unit =
  /^(?:mm\/m|m\/m|m\/s|m\/h|mm|cm|m³\/h|m³|m²|m|L\/h|L\/min|L\/s|L|kg|kWh|W|ft\/s|ft\/h|ft|in|gal|gph|gpm|lb|psi|°C|°F|min|s|h|%|×)[.,;:)"]*$/u;
const fraction = /^\d+\/\d+[.,;:)"]*$/u;

function holds(before: string, after: string): boolean {
  if (number.test(before)) return unit.test(after) || fraction.test(after);
  // 2 ft | 7 in, 2 h | 10 min, Ø | 1.20 m
  return /^(?:ft|h|Ø)$/u.test(before) && /^\d/u.test(after);
}
