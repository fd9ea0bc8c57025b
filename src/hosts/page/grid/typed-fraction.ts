/** A whole number, a space and a fraction below 1, as a size is written on a grille. */
const MIXED = /^\s*([+-]?)(\d+) +(\d+)\/(\d+)\s*$/;

/** Returns `12 1/2` as 12.5, as other spreadsheet programs take it, and any other entry as it was typed. */
export function typedFraction(content: string): string {
  const [, sign = "", whole = "", over = "", under = ""] = MIXED.exec(content) ?? [];
  const fraction = Number(over) / Number(under);
  return whole !== "" && fraction < 1 ? `${sign}${Number(whole) + fraction}` : content;
}
