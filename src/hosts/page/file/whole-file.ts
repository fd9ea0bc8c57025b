import type { Model } from "@odoo/o-spreadsheet";
import { strToU8, type Zippable, zipSync } from "fflate";

/** A piece of a file as the engine writes it; pictures come by their address in the page. */
interface EnginePart {
  readonly path: string;
  readonly content?: string;
  readonly imageSrc?: string;
}

/** Returns the workbook in view as a new file in full, formulas in the spelling that a person types. */
export async function wholeFile(model: Model): Promise<Uint8Array> {
  const { files } = (await model.exportXLSX()) as { readonly files: readonly EnginePart[] };
  const parts: Zippable = {};
  for (const { path, content, imageSrc } of files) {
    // The engine writes an empty style of a rule's message, which the format does not know: it means "stop".
    if (content !== undefined) parts[path] = strToU8(content.replaceAll(' errorStyle=""', ""));
    else if (imageSrc !== undefined) parts[path] = new Uint8Array(await (await fetch(imageSrc)).arrayBuffer());
  }
  return zipSync(parts);
}
