/** Bytes as letters that stand in a link unchanged (RFC 4648, section 5, without padding). */
const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
const values: ReadonlyMap<string, number> = new Map([...letters].map((letter, i) => [letter, i]));

export function toBase64url(bytes: Uint8Array): string {
  const text: string[] = [];
  for (let i = 0; i < bytes.length; i += 3) {
    const three = ((bytes[i] as number) << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    const count = Math.min(bytes.length - i, 3) + 1;
    for (let k = 0; k < count; k++) text.push(letters[(three >> (18 - 6 * k)) & 63] as string);
  }
  return text.join("");
}

/** Null where a letter is none of ours, or where the letters are no whole number of bytes. */
export function fromBase64url(text: string): Uint8Array | null {
  const rest = text.length % 4;
  if (rest === 1) return null;
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  let held = 0;
  let bits = 0;
  let at = 0;
  for (const letter of text) {
    const value = values.get(letter);
    if (value === undefined) return null;
    held = ((held << 6) | value) & 0xffff;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes[at++] = (held >> bits) & 0xff;
  }
  return bytes;
}
