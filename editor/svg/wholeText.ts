/** Words into as many lines as they take: on a sheet of tables nothing is cut. */
import type { Letters } from "../scene/plainText.ts";
import { plainText } from "../scene/plainText.ts";
import { textWidth } from "../scene/textWidth.ts";
import { unbroken } from "../scene/unbroken.ts";

/** `first` is the room of the first line where something stands before it. A word wider than a line goes on in the next. */
export function wholeText(text: string, width: number, { size, weight }: Letters, first = width): readonly string[] {
  const lines: string[] = [];
  let line = "";
  const room = (): number => (lines.length === 0 ? first : width);
  const fits = (words: string): boolean => textWidth(words, size, weight) <= room();
  const push = (): void => {
    lines.push(line);
    line = "";
  };
  const words = unbroken(plainText(text)).flatMap((word) =>
    textWidth(word, size, weight) <= Math.min(width, first) ? [word] : word.split(" "),
  );
  for (const word of words) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== "") push();
    for (const letter of word) {
      if (line !== "" && !fits(`${line}${letter}`)) push();
      line += letter;
    }
  }
  if (line !== "") push();
  return lines;
}
