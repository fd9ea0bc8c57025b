import { WORKBOOK_LIMITS } from "../limits.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { type ByteRange, readXml, type XmlHandler } from "../xml/read-xml.js";
import { decodeXstring } from "../xml/text.js";
import { scanPlainStrings } from "./scan-plain-strings.js";

/**
 * Reads the table of strings that cells refer to by number. Runs of rich text are joined; phonetic guides are left out.
 *
 * @source ECMA-376-1:2016, section 18.4
 */
export function readSharedStrings(bytes: Uint8Array, place: string): readonly string[] {
  const plain = scanPlainStrings(bytes);
  if (plain === undefined || !isWholeRoot(bytes, place, plain)) return parsedStrings(bytes, place);
  if (plain.strings.length > WORKBOOK_LIMITS.cells) throw tooMany(place);
  return plain.strings;
}

/** Whether the items are all that the part's root holds; the rest of the part has to be XML in any case. */
function isWholeRoot(bytes: Uint8Array, place: string, items: ByteRange): boolean {
  let rootOpenEnd = -1;
  const open: XmlHandler["open"] = (_name, _attributes, depth, _start, end) => {
    if (depth === 1) rootOpenEnd = end;
  };
  readXml(bytes, place, { open }, items);
  return rootOpenEnd === items.start;
}

function parsedStrings(bytes: Uint8Array, place: string): readonly string[] {
  const strings: string[] = [];
  let text = "";
  let isInText = false;
  let phoneticDepth = 0;
  readXml(bytes, place, {
    open(name, _attributes, depth) {
      if (depth === 2 && name === "si") text = "";
      else if (name === "rPh") phoneticDepth = depth;
      else if (name === "t") isInText = phoneticDepth === 0;
    },
    text(chunk) {
      if (isInText) text += chunk;
    },
    close(name, depth) {
      if (name === "t") isInText = false;
      else if (depth === phoneticDepth) phoneticDepth = 0;
      else if (depth === 2 && name === "si") {
        strings.push(decodeXstring(text));
        if (strings.length > WORKBOOK_LIMITS.cells) throw tooMany(place);
      }
    },
  });
  return strings;
}

function tooMany(place: string): WorkbookFileError {
  const problem = `holds more than ${WORKBOOK_LIMITS.cells} texts`;
  return new WorkbookFileError("too-large", place, problem, "Split the workbook.");
}
