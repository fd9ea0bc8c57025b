import { contentTypeOf } from "../package/content-types.js";
import { readPart, relationshipsOf } from "../package/read-part.js";
import { type Relationship, relationshipsPartOf } from "../package/relationships.js";
import type { PartEdit } from "../patch/edits.js";
import type { Workbook } from "../workbook.js";
import { escapeXml } from "../xml/text.js";

const PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships";

/** Copies parts under free names, with the parts that they lead to, each once. */
export function makePartCopier(
  target: Workbook,
  source: Workbook,
  rewrite: (part: Relationship, bytes: Uint8Array) => Uint8Array | string,
) {
  const edits: PartEdit[] = [];
  const copied = new Map<string, string>();
  const taken = new Set(target.archive.byName.keys());
  const freePart = (name: string): string => {
    const [, stem = name, ending = ""] = /^(.*?)\d*(\.[^./]+)$/.exec(name) ?? [];
    let free = name;
    for (let number = 1; taken.has(free.toLowerCase()); number += 1) free = `${stem}${number}${ending}`;
    taken.add(free.toLowerCase());
    return free;
  };
  const copy = (relationship: Relationship): string => {
    const known = copied.get(relationship.target);
    if (known !== undefined) return known;
    const partName = freePart(relationship.target);
    copied.set(relationship.target, partName);
    const bytes = readPart(source.archive, relationship.target);
    const contentType = contentTypeOf(source.contentTypes, relationship.target);
    edits.push({ kind: "part", partName, content: rewrite(relationship, bytes), contentType });
    const led = relationshipsOf(source.archive, relationship.target);
    if (led.length > 0) {
      const entries = led.map((one) =>
        relationshipXml(one, one.isExternal ? one.target : relativeTarget(partName, copy(one))),
      );
      const content = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<Relationships xmlns="${PACKAGE}">${entries.join("")}</Relationships>`;
      edits.push({ kind: "part", partName: relationshipsPartOf(partName), content });
    }
    return partName;
  };
  return { edits, copy };
}

/** A part as another names it: some readers know no names that begin at the root. */
function relativeTarget(from: string, to: string): string {
  const folders = from.split("/").slice(0, -1);
  const path = to.split("/");
  let shared = 0;
  while (shared < folders.length && shared < path.length - 1 && folders[shared] === path[shared]) shared += 1;
  return [...folders.slice(shared).map(() => ".."), ...path.slice(shared)].map(encodeURIComponent).join("/");
}

function relationshipXml({ id, type, isExternal }: Relationship, to: string): string {
  const mode = isExternal ? ' TargetMode="External"' : "";
  return `<Relationship Id="${escapeXml(id)}" Type="${escapeXml(type)}" Target="${escapeXml(to)}"${mode}/>`;
}
