/** Lines of at most `width` characters, broken between words, all but the first after `hang` spaces. */
export function wrap(
  text: string,
  { first = "", hang = 0, width = 96 }: { first?: string; hang?: number; width?: number } = {},
): readonly string[] {
  const lines: string[] = [];
  let line = first;
  let isBare = true;
  for (const word of text.split(" ").filter((each) => each !== "")) {
    if (!isBare && line.length + 1 + word.length > width) {
      lines.push(line);
      line = " ".repeat(hang);
      isBare = true;
    }
    line += isBare ? word : ` ${word}`;
    isBare = false;
  }
  return [...lines, line.trimEnd()];
}
