/** Text as it may stand between tags and in quoted attributes. What XML 1.0 has no way to hold (control
 * characters, half of a pair, U+FFFE and U+FFFF) becomes the replacement character, and so does what a document must not
 * do to the words around its own: the controls U+0080 to U+009F and marks that turn the direction of writing. */
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

const unheld =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML forbids
  /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F\u061C\u200E\u200F\u2028-\u202E\u2066-\u2069\uFFFE\uFFFF]|\p{Surrogate}/gu;
