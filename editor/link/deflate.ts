/** Raw deflate (RFC 1951) by the browser's own streams. */
export async function deflate(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
  const packed = new Blob([bytes]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  return new Uint8Array(await new Response(packed).arrayBuffer());
}

export type Inflated =
  | { readonly ok: true; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly why: "damaged" | "too large" };

/** Unpacks no further than `most` bytes: a few letters can be made to unpack to more than a machine holds. */
export async function inflate(bytes: Uint8Array<ArrayBuffer>, most: number): Promise<Inflated> {
  const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw")).getReader();
  const chunks: Uint8Array[] = [];
  let size = 0;
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      size += value.length;
      if (size > most) {
        await reader.cancel();
        return { ok: false, why: "too large" };
      }
      chunks.push(value);
    }
  } catch {
    // The stream says only that the bytes are no deflate; so does its reader.
    return { ok: false, why: "damaged" };
  }
  const whole = new Uint8Array(size);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return { ok: true, bytes: whole };
}
