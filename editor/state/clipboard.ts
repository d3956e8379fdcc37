/** What was copied last in this window. The system's clipboard is written as well, but a page may read that one only
 * in a paste; a menu's "Paste here" takes this. */
let text: string | null = null;

export const lastCopied = (): string | null => text;

export function copied(parts: string): void {
  text = parts;
}
