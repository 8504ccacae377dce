// Unpacks what a link carries, as the browser does it anyhow.

/** Most bytes that a link may unpack to: MOST_INFLATED of src/design/link.rs. */
const MOST = 256 * 1024;

/** The content of a deflate stream that ends where the bytes end; rejects what is damaged or too much. */
export async function inflate(packed) {
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  const parts = [];
  let length = 0;
  for (const reader = stream.getReader(); ;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.length;
    if (length > MOST) {
      reader.cancel();
      throw new RangeError('too much');
    }
    parts.push(value);
  }
  const text = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    text.set(part, at);
    at += part.length;
  }
  return text;
}
