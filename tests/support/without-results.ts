import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";

/** A workbook from which every result that a formula stored is gone, so that whoever opens it must calculate. */
export function withoutResults(bytes: Uint8Array): Uint8Array {
  const parts = Object.entries(unzipSync(bytes)).map(([name, content]): [string, Uint8Array] => {
    if (!name.startsWith("xl/worksheets/sheet")) return [name, content];
    const sheet = strFromU8(content).replace(/(<f(?:\s[^>]*)?(?:\/>|>[^<]*<\/f>))<v[^>]*>[^<]*<\/v>/g, "$1");
    return [name, strToU8(sheet)];
  });
  return zipSync(Object.fromEntries(parts));
}
