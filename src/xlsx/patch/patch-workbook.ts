import { WORKBOOK_LIMITS } from "../limits.js";
import {
  sourceOfList,
  withContentType,
  withoutContentType,
  withoutRelationshipsTo,
  withRelationship,
} from "../package/change-lists.js";
import { CONTENT_TYPES_PART } from "../package/content-types.js";
import { placeOf, readOptionalPart, readPart } from "../package/read-part.js";
import { relationshipsPartOf } from "../package/relationships.js";
import { findSheetEntry, readSheet } from "../read/read-sheet.js";
import type { Workbook } from "../workbook.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { utf8Bytes } from "../xml/utf8.js";
import { writeArchive } from "../zip/write-archive.js";
import { ensureDynamicArrays, METADATA_CONTENT_TYPE, METADATA_RELATIONSHIP } from "./dynamic-array-metadata.js";
import type { CellEdit, PartEdit, WorkbookEdit } from "./edits.js";
import { patchSheet } from "./patch-sheet.js";

/** How to treat what a change would break. */
export interface PatchOptions {
  /** A digital signature no longer holds after a change: "refuse" to make one (the default), or "break" it. */
  readonly signature?: "refuse" | "break";
}

/**
 * Applies edits to a workbook and returns its new file. Only the parts concerned change, and in a sheet only the text of
 * the cells concerned; every other part keeps its compressed bytes, its header and its place.
 *
 * When a formula is added, changed or taken out, the list of the order in which to calculate is taken out whole: the
 * spreadsheet program makes it anew, while a list that names a cell without a formula would be called damaged.
 *
 * @param workbook - The workbook as opened; it stays as it is
 * @param edits - What to change; of two edits of one cell the later counts
 * @param options - How to treat what a change would break
 * @returns The new file; the very bytes of the old one when nothing changes
 * @throws {WorkbookFileError} When an edit would harm the workbook; then nothing is written
 * @example
 * patchWorkbook(workbook, [{ kind: "value", sheet: "Rooms", address: "B7", value: 425 }])
 */
export function patchWorkbook(
  workbook: Workbook,
  edits: readonly WorkbookEdit[],
  options: PatchOptions = {},
): Uint8Array {
  const parts = makePartChanges(workbook);
  const cellEdits: CellEdit[] = [];
  for (const edit of edits) {
    if (edit.kind === "part") parts.put(edit);
    else if (edit.kind === "removePart") parts.remove(edit.partName);
    else cellEdits.push(edit);
  }
  const dynamicMetadata = cellEdits.some((edit) => edit.kind === "formula" && edit.form === "dynamic")
    ? parts.ensureDynamicArrays()
    : 0;
  let changesFormulas = false;
  for (const [sheetName, sheetEdits] of groupBySheet(workbook, cellEdits)) {
    const sheet = readSheet(workbook, sheetName);
    // The cells would be those of the sheet as opened, and the other change would be lost without a word.
    if (parts.changes.has(sheet.partName))
      throw new Error(`${sheetName} is changed as a part and by its cells at once`);
    const bytes = readPart(workbook.archive, sheet.partName, WORKBOOK_LIMITS.partBytes);
    const patched = patchSheet(sheet, bytes, sheetEdits, dynamicMetadata);
    if (patched.isChanged) parts.set(sheet.partName, patched.bytes);
    changesFormulas ||= patched.changesFormulas;
  }
  const chain = workbook.relationships.find(({ kind }) => kind === "calcChain");
  if (changesFormulas && chain !== undefined) parts.remove(chain.target);
  if (parts.changes.size === 0) return workbook.archive.bytes;
  if (workbook.isSigned && options.signature !== "break") {
    throw new WorkbookFileError(
      "signed",
      workbook.fileName,
      "carries a digital signature, which any change would break",
      "Change a copy from which the signature has been removed, or ask the signer.",
    );
  }
  return writeArchive(workbook.archive, parts.changes);
}

function groupBySheet(workbook: Workbook, edits: readonly CellEdit[]): ReadonlyMap<string, readonly CellEdit[]> {
  const groups = new Map<string, CellEdit[]>();
  for (const edit of edits) {
    const name = findSheetEntry(workbook, edit.sheet)?.name ?? edit.sheet;
    const group = groups.get(name);
    if (group === undefined) groups.set(name, [edit]);
    else group.push(edit);
  }
  return groups;
}

/** Collects new contents of parts and keeps the lists of content types and relationships true. */
function makePartChanges(workbook: Workbook) {
  const { archive } = workbook;
  const changes = new Map<string, Uint8Array | undefined>();
  const nameOf = (partName: string): string => archive.byName.get(partName.toLowerCase())?.name ?? partName;
  const contentOf = (partName: string): Uint8Array | undefined => {
    const name = nameOf(partName);
    return changes.has(name) ? changes.get(name) : readOptionalPart(archive, name);
  };
  const set = (partName: string, content: Uint8Array | undefined): void => {
    changes.set(nameOf(partName), content);
  };
  /** Changes a list; a change that leaves it as it is counts for nothing. */
  const changeList = (listName: string, change: (list: Uint8Array | undefined, place: string) => Uint8Array): void => {
    const before = contentOf(listName);
    const after = change(before, placeOf(archive, listName));
    if (after !== before) set(listName, after);
  };
  const put = (edit: PartEdit): void => {
    const { partName, content, contentType, relationship } = edit;
    set(partName, typeof content === "string" ? utf8Bytes(content) : content);
    if (contentType !== undefined) {
      changeList(CONTENT_TYPES_PART, (list, place) =>
        withContentType(list ?? new Uint8Array(), place, partName, contentType),
      );
    }
    if (relationship === undefined) return;
    const { from, type } = relationship;
    changeList(relationshipsPartOf(from), (list, place) =>
      withRelationship(list, place, { source: from, type, target: partName }),
    );
  };
  return {
    changes,
    set,
    put,
    remove(partName: string): void {
      if (contentOf(partName) === undefined) return;
      set(partName, undefined);
      const ownList = relationshipsPartOf(partName);
      if (contentOf(ownList) !== undefined) set(ownList, undefined);
      changeList(CONTENT_TYPES_PART, (list, place) => withoutContentType(list ?? new Uint8Array(), place, partName));
      for (const { name } of archive.entries) {
        const source = sourceOfList(name);
        const list = source === undefined ? undefined : contentOf(name);
        if (source === undefined || list === undefined) continue;
        changeList(name, (before, place) => withoutRelationshipsTo(before ?? list, place, source, partName));
      }
    },
    /** Returns the number by which a cell says that it holds a dynamic array. */
    ensureDynamicArrays(): number {
      const known = workbook.relationships.find(({ kind }) => kind === "sheetMetadata")?.target;
      const partName = known ?? resolveFreeName(archive.byName, workbook.workbookPart);
      const before = known === undefined ? undefined : contentOf(known);
      const { bytes, cellMetadata } = ensureDynamicArrays(before, placeOf(archive, partName));
      if (bytes !== before) {
        const relationship = { from: workbook.workbookPart, type: METADATA_RELATIONSHIP };
        put({ kind: "part", partName, content: bytes, contentType: METADATA_CONTENT_TYPE, relationship });
      }
      return cellMetadata;
    },
  };
}

/** A name beside the workbook part that no part has yet. */
function resolveFreeName(taken: ReadonlyMap<string, unknown>, workbookPart: string): string {
  const folder = workbookPart.slice(0, workbookPart.lastIndexOf("/") + 1);
  let name = `${folder}metadata.xml`;
  for (let number = 2; taken.has(name.toLowerCase()); number += 1) name = `${folder}metadata${number}.xml`;
  return name;
}
