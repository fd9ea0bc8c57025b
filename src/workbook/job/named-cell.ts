import type { BlockAddress } from "../host.js";

/** Returns the block that a defined name refers to, null where it is no plain block: `'Floor 1'!$B$3`. */
export function namedBlock(refersTo: string): BlockAddress | null {
  const match = /^=?(?:'((?:[^']|'')+)'|([^'!]+))!(\$?[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?)$/i.exec(
    refersTo.trim(),
  );
  const [, quoted, plain, range] = match ?? [];
  const sheet = quoted?.replaceAll("''", "'") ?? plain;
  return sheet === undefined || range === undefined ? null : { sheet, range: range.replaceAll("$", "") };
}
