/** Bytes as a message of JSON carries them. */
export function toBase64(bytes: Uint8Array): string {
  const pieces: string[] = [];
  // A call takes only so many arguments.
  for (let at = 0; at < bytes.length; at += CHUNK) pieces.push(String.fromCharCode(...bytes.subarray(at, at + CHUNK)));
  return btoa(pieces.join(''));
}

const CHUNK = 8192;

/** Throws where it is none. */
export const fromBase64 = (text: string): Uint8Array => Uint8Array.from(atob(text), (each) => each.charCodeAt(0));
