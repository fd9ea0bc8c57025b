import { strToU8, type Zippable, zipSync } from "fflate";
import type { Parts } from "./finished-parts.js";

/** Local time, which is what a zip stores: the same bytes whatever the time zone. */
export const FIXED_TIME = new Date(2026, 0, 1, 0, 0, 0);

/** Packs a workbook as small as can be; the same parts always give the same bytes. */
export function packedParts(parts: Parts): Uint8Array {
  const packed: Zippable = {};
  for (const [name, text] of Object.entries(parts)) packed[name] = [strToU8(text), { mtime: FIXED_TIME, level: 9 }];
  return zipSync(packed);
}
