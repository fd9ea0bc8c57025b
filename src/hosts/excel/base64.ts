/** As many characters as one call may pass on its way to base64. */
const CHUNK = 0x8000;

/** Returns bytes as base64, as Excel takes files. */
export function base64(bytes: Uint8Array): string {
  let text = "";
  for (let start = 0; start < bytes.length; start += CHUNK) {
    text += String.fromCharCode(...bytes.subarray(start, start + CHUNK));
  }
  return btoa(text);
}
