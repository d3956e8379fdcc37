/** A file's text as one line that a terminal can show: control characters (C0, C1, so also the one that opens a
 * terminal's commands), line breaks and marks that turn the direction of writing become spaces. */
export function plain(text: string): string {
  let safe = "";
  for (const character of text) safe += isHarmless(character.codePointAt(0) as number) ? character : " ";
  return safe.replace(/ +/g, " ").trim();
}

function isHarmless(code: number): boolean {
  const control = code < 0x20 || (code >= 0x7f && code <= 0x9f);
  const turns =
    code === 0x061c ||
    (code >= 0x200e && code <= 0x200f) ||
    (code >= 0x2028 && code <= 0x202e) ||
    (code >= 0x2066 && code <= 0x2069);
  return !control && !turns;
}
