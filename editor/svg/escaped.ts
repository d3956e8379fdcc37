/** Text as it may stand between tags and in quoted attributes. What XML 1.0 has no way to hold (control
 * characters, half of a pair, U+FFFE and U+FFFF) becomes the replacement character. */
export function escaped(text: string): string {
  return text.replace(unheld, "\uFFFD").replace(/[&<>"']/g, (letter) => names[letter] as string);
}

const names: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML forbids
const unheld = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]|\p{Surrogate}/gu;
