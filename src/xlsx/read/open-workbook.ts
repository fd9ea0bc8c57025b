import { WORKBOOK_LIMITS } from "../limits.js";
import { CONTENT_TYPES_PART, type ContentTypes, contentTypeOf, readContentTypes } from "../package/content-types.js";
import { placeOf, readOptionalPart, readPart, relationshipsOf } from "../package/read-part.js";
import type { Relationship } from "../package/relationships.js";
import { requireFileSize } from "../require-file-size.js";
import type { Workbook } from "../workbook.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { findEntry, type ZipArchive } from "../zip/archive.js";
import { type ArchiveCodec, portableCodec } from "../zip/codec.js";
import { readArchive } from "../zip/read-archive.js";
import { refuseDisguise } from "../zip/recognise-disguise.js";
import { readSharedStrings } from "./shared-strings.js";
import { readStyles } from "./styles.js";
import { readWorkbookPart } from "./workbook-part.js";

const SAVE_AS = "Open it in your spreadsheet program and save it as .xlsx.";

/**
 * Opens a workbook from the bytes of its file. Sheets are read later, one by one, with `readSheet`.
 *
 * @param bytes - The whole file; kept, not copied, and never changed
 * @param fileName - Named in messages
 * @param codec - Packs and unpacks, when the host has something faster
 * @returns The workbook: its sheets, names, strings and styles
 * @throws {WorkbookFileError} When the file is not an .xlsx workbook, is damaged, or is not safe to open
 * @example
 * openWorkbook(bytes, "balance.xlsx").sheets[0]?.name // => "Rooms"
 */
export function openWorkbook(bytes: Uint8Array, fileName: string, codec: ArchiveCodec = portableCodec): Workbook {
  requireFileSize(bytes.length, fileName);
  refuseDisguise(bytes, fileName);
  const archive = readArchive(bytes, fileName, codec);
  const contentTypes = readTypes(archive);
  const packageRelationships = relationshipsOf(archive, "");
  const workbookPart = findWorkbookPart(archive, contentTypes, packageRelationships);
  const relationships = relationshipsOf(archive, workbookPart);
  const part = readWorkbookPart(readPart(archive, workbookPart), placeOf(archive, workbookPart), relationships);
  const stringsPart = targetOf(relationships, "sharedStrings");
  const stringsBytes = stringsPart && readOptionalPart(archive, stringsPart, WORKBOOK_LIMITS.partBytes);
  const stylesPart = targetOf(relationships, "styles");
  // A roll-up opens thousands of workbooks and asks none for its styles.
  let styles: Workbook["styles"] | undefined;
  return {
    fileName,
    archive,
    contentTypes,
    workbookPart,
    relationships,
    ...part,
    strings: stringsPart && stringsBytes ? readSharedStrings(stringsBytes, placeOf(archive, stringsPart)) : [],
    get styles() {
      const bytes = styles === undefined && stylesPart ? readOptionalPart(archive, stylesPart) : undefined;
      styles ??= stylesPart && bytes ? readStyles(bytes, placeOf(archive, stylesPart)) : [];
      return styles;
    },
    hasMacros: relationships.some(({ kind }) => kind === "vbaProject"),
    isSigned:
      packageRelationships.some(({ type }) => type.includes("/digital-signature/")) ||
      archive.entries.some(({ name }) => name.toLowerCase().startsWith("_xmlsignatures/")),
  };
}

function targetOf(relationships: readonly Relationship[], kind: string): string | undefined {
  return relationships.find((relationship) => relationship.kind === kind && !relationship.isExternal)?.target;
}

function readTypes(archive: ZipArchive): ContentTypes {
  const bytes = readOptionalPart(archive, CONTENT_TYPES_PART);
  if (bytes !== undefined) return readContentTypes(bytes, placeOf(archive, CONTENT_TYPES_PART));
  const mimeType = findEntry(archive, "mimetype");
  if (mimeType !== undefined || findEntry(archive, "content.xml") !== undefined) {
    throw new WorkbookFileError(
      "open-document",
      archive.fileName,
      "is an OpenDocument file, not an .xlsx workbook",
      SAVE_AS,
    );
  }
  throw noWorkbook(archive.fileName, "is a zip archive without a workbook in it");
}

function findWorkbookPart(
  archive: ZipArchive,
  contentTypes: ContentTypes,
  packageRelationships: readonly Relationship[],
): string {
  const partName = targetOf(packageRelationships, "officeDocument");
  if (partName === undefined) throw noWorkbook(archive.fileName, "is a zip archive without a workbook in it");
  const type = contentTypeOf(contentTypes, partName).toLowerCase();
  if (type.includes("ms-excel.sheet.binary")) {
    throw new WorkbookFileError("binary-workbook", archive.fileName, "is a binary .xlsb workbook", SAVE_AS);
  }
  if (type.includes("wordprocessingml") || type.includes("presentationml")) {
    throw noWorkbook(archive.fileName, "is another Office document, not a workbook");
  }
  const isWorkbook = type.includes("spreadsheetml") || type.includes("ms-excel");
  if (!isWorkbook) throw noWorkbook(archive.fileName, "holds no workbook that can be read");
  return partName;
}

function noWorkbook(place: string, problem: string): WorkbookFileError {
  const advice = "Choose a file that your spreadsheet program saved as .xlsx.";
  return new WorkbookFileError("not-a-workbook", place, problem, advice);
}
