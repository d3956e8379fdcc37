/** A file's text as one line that a terminal can show: control characters (C0, C1, so also the one that opens a
 * terminal's commands), line breaks, marks that turn the direction of writing, letters that nobody can see and halves
 * of letters become spaces. */
export function plain(text: string): string {
  let safe = "";
  for (const character of text) safe += isHarmless(character.codePointAt(0) as number) ? character : " ";
  return safe.replace(/ +/g, " ").trim();
}

/** The same for JSON that is printed as it is: they are written as JSON escapes, and mean what they meant. Its own line
 * feeds stay. */
export function plainJson(json: string): string {
  let safe = "";
  for (const character of json) {
    const isOwn = character === "\n" || isHarmless(character.codePointAt(0) as number);
    safe += isOwn ? character : escapesOf(character);
  }
  return safe;
}

const escapesOf = (character: string): string =>
  Array.from(
    { length: character.length },
    (_, i) => `\\u${character.charCodeAt(i).toString(16).padStart(4, "0")}`,
  ).join("");

/** Joiners (U+200C, U+200D) are not among them: words of some languages are misspelt without. */
function isHarmless(code: number): boolean {
  const control = code < 0x20 || (code >= 0x7f && code <= 0x9f);
  const half = code >= 0xd800 && code <= 0xdfff;
  const turns =
    code === 0x061c ||
    (code >= 0x200e && code <= 0x200f) ||
    (code >= 0x2028 && code <= 0x202e) ||
    (code >= 0x2066 && code <= 0x2069);
  const unseen =
    code === 0x200b ||
    (code >= 0x2060 && code <= 0x206f) ||
    code === 0xfeff ||
    (code >= 0xfff9 && code <= 0xfffb) ||
    (code >= 0xe0000 && code <= 0xe007f) ||
    (code & 0xfffe) === 0xfffe;
  return !control && !half && !turns && !unseen;
}
