/** A file name from a drawing's title: letters, digits and hyphens only, whatever the title holds. */
export function fileNameOf(title: string, extension: ".json" | ".svg" | ".csv"): string {
  const plain = title
    .normalize("NFKD")
    .replace(/[^A-Za-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .toLowerCase()
    .slice(0, 60);
  return `${plain === "" ? "drawing" : plain}${extension}`;
}
