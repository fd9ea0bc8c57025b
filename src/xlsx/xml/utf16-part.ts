import { WorkbookFileError } from "../workbook-file-error.js";
import { utf8Bytes } from "./utf8.js";

/** Characters turned into a string in one call; more would exhaust the stack of arguments. */
const STEP = 8192;

/** How the declaration at the beginning of a part names its encoding. */
const DECLARED = /^(<\?xml[^>]*?\sencoding\s*=\s*)(["'])utf-?16(?:le|be)?\2/i;

/** Where the text starts and which half of a character comes first; undefined for a part that is not XML in UTF-16. */
function formOf([first, second, third, fourth]: Uint8Array): { readonly start: 0 | 2; isLittle: boolean } | undefined {
  const isLess = (low: number | undefined, high: number | undefined) => low === 0x3c && high === 0;
  if (first === 0xff && second === 0xfe && isLess(third, fourth)) return { start: 2, isLittle: true };
  if (first === 0xfe && second === 0xff && isLess(fourth, third)) return { start: 2, isLittle: false };
  if (isLess(first, second) && third !== 0 && fourth === 0) return { start: 0, isLittle: true };
  if (isLess(second, first) && third === 0 && fourth !== 0) return { start: 0, isLittle: false };
  return undefined;
}

/**
 * Returns a part in UTF-8. Some programs write XML in UTF-16, which the standard allows; here it is turned over once, so
 * that whoever reads or changes a part knows one encoding. A part that nobody changes keeps its bytes in the file.
 *
 * @param bytes - The part; what is no XML in UTF-16 comes back as it is
 * @param place - The file and the part, named in messages
 * @throws {WorkbookFileError} When it begins as UTF-16 does and goes on as something else
 * @source ECMA-376-2:2016, section 8.1.4: XML parts are in UTF-8 or UTF-16
 */
export function inUtf8(bytes: Uint8Array, place: string): Uint8Array {
  const form = formOf(bytes);
  if (form === undefined) return bytes;
  const length = (bytes.length - form.start) / 2;
  if (!Number.isInteger(length)) throw notUtf16(place);
  const view = new DataView(bytes.buffer, bytes.byteOffset + form.start);
  const pieces: string[] = [];
  const units: number[] = [];
  for (let index = 0; index < length; index += 1) {
    units.push(view.getUint16(index * 2, form.isLittle));
    if (units.length < STEP && index < length - 1) continue;
    pieces.push(String.fromCharCode(...units));
    units.length = 0;
  }
  const text = pieces.join("");
  // Half of a pair would become another character without a word.
  if (/(?<![\ud800-\udbff])[\udc00-\udfff]|[\ud800-\udbff](?![\udc00-\udfff])/.test(text)) throw notUtf16(place);
  return utf8Bytes(text.replace(DECLARED, "$1$2UTF-8$2"));
}

function notUtf16(place: string): WorkbookFileError {
  const advice = "Open it in your spreadsheet program, save it again as .xlsx, and use that copy.";
  return new WorkbookFileError("unsafe-xml", place, "holds bytes that are not UTF-16 text", advice);
}
