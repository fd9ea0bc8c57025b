import { readXml } from "../xml/read-xml.js";

/** Which content type each part has. */
export interface ContentTypes {
  readonly byExtension: ReadonlyMap<string, string>;
  readonly byPart: ReadonlyMap<string, string>;
}

export const CONTENT_TYPES_PART = "[Content_Types].xml";

/**
 * Reads the list of content types.
 *
 * @source ECMA-376-2:2016, section 10.1.2.2
 */
export function readContentTypes(bytes: Uint8Array, place: string): ContentTypes {
  const byExtension = new Map<string, string>();
  const byPart = new Map<string, string>();
  readXml(bytes, place, {
    open(name, attributes) {
      const type = attributes["ContentType"];
      if (type === undefined) return;
      const { Extension: extension, PartName: part } = attributes;
      if (name === "Default" && extension !== undefined) byExtension.set(extension.toLowerCase(), type);
      if (name === "Override" && part !== undefined) byPart.set(partKey(part), type);
    },
  });
  return { byExtension, byPart };
}

/** A part's name as the archive knows it: slashes, none in front, no capitals. */
function partKey(written: string): string {
  return written.replaceAll("\\", "/").replace(/^\//, "").toLowerCase();
}

/** Returns the content type of a part, or "" when none is declared. */
export function contentTypeOf(types: ContentTypes, partName: string): string {
  const name = partName.toLowerCase();
  return types.byPart.get(name) ?? types.byExtension.get(name.slice(name.lastIndexOf(".") + 1)) ?? "";
}
