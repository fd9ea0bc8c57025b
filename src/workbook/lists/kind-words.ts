import type { OutletKind } from "./columns.js";

/** How people write the kinds of outlets in their own sheets, in small letters. Common practice, no source. */
export const KIND_WORDS: Readonly<Record<OutletKind, readonly string[]>> = {
  supply: ["s", "sa", "sup", "supply air", "suministro", "impulsión", "impulsion", "zuluft", "zul"],
  return: ["r", "ra", "ret", "return air", "retorno", "umluft", "abluft", "abl"],
  exhaust: ["e", "ea", "ex", "exh", "exhaust air", "extract", "extracción", "extraccion", "fortluft", "fol"],
  "outside air": ["o", "oa", "outdoor air", "outside", "fresh air", "aire exterior", "außenluft", "aul"],
};
