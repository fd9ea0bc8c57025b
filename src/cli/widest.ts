/** Returns the length of the longest text, of however many; 0 of none. */
export function widest(texts: Iterable<string>): number {
  let most = 0;
  for (const { length } of texts) if (length > most) most = length;
  return most;
}
