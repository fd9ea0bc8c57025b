const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";

/** The letter of a line, as on the traverse sheet; beyond the alphabet its number. */
export function lineLetter(line: number): string {
  return LETTERS.charAt(line - 1) || String(line);
}
