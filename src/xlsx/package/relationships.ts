import { WorkbookFileError } from "../workbook-file-error.js";
import { readXml } from "../xml/read-xml.js";

/** A relationship from one part to another, or to something outside the file. */
export interface Relationship {
  readonly id: string;
  /** The last word of the type's address: "worksheet", "styles", "sharedStrings", … */
  readonly kind: string;
  readonly type: string;
  /** The part's name without a leading slash, or the address outside. */
  readonly target: string;
  readonly isExternal: boolean;
}

/** Name of the part that holds a part's relationships; the package's own for "". */
export function relationshipsPartOf(partName: string): string {
  const slash = partName.lastIndexOf("/") + 1;
  return `${partName.slice(0, slash)}_rels/${partName.slice(slash)}.rels`;
}

/**
 * Reads a relationships part.
 *
 * @param bytes - The part
 * @param place - File and part, for messages
 * @param source - The part whose relationships they are; "" for the package
 * @source ECMA-376-2:2016, section 9.3
 */
export function readRelationships(bytes: Uint8Array, place: string, source: string): readonly Relationship[] {
  const relationships = new Map<string, Relationship>();
  readXml(bytes, place, {
    open(name, attributes, depth) {
      if (name !== "Relationship" || depth !== 2) return;
      const { Id: id, Type: type, Target: target, TargetMode: mode } = attributes;
      if (id === undefined || type === undefined || target === undefined || relationships.has(id)) {
        const problem = "lists a relationship without a name, a type or a target, or the same one twice";
        throw new WorkbookFileError(
          "damaged-workbook",
          place,
          problem,
          "Save the workbook again in your spreadsheet program.",
        );
      }
      const isExternal = mode === "External";
      relationships.set(id, {
        id,
        type,
        kind: type.slice(type.lastIndexOf("/") + 1),
        target: isExternal ? target : resolvePart(source, target),
        isExternal,
      });
    },
  });
  return [...relationships.values()];
}

/** Resolves a target against the folder of its source part; ".." above the root stays at the root. Backslashes separate as slashes do. */
export function resolvePart(source: string, target: string): string {
  const [written = ""] = target.split("#");
  const path = written.replaceAll("\\", "/");
  const base = path.startsWith("/") ? [] : source.split("/").slice(0, -1);
  for (const segment of path.split("/")) {
    if (segment === "..") base.pop();
    else if (segment !== "" && segment !== ".") base.push(segment);
  }
  const name = base.join("/");
  try {
    return decodeURIComponent(name);
  } catch {
    // A stray percent sign: the name is meant as written.
    return name;
  }
}
