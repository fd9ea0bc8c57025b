import type { Workbook } from "../workbook.js";
import { readXml, type XmlAttributes } from "../xml/read-xml.js";
import { type Splice, spliceBytes } from "../xml/splice.js";
import { changeTag } from "../xml/tag.js";
import { encodeXstring, escapeXml } from "../xml/text.js";
import { utf8Text } from "../xml/utf8.js";
import type { MergedStyles } from "./merge-styles.js";

/** What a sheet's part needs to read right in another workbook. */
export interface SheetRewriting {
  readonly source: Workbook;
  readonly styles: MergedStyles;
  /** Marks a cell as a dynamic array in the other workbook. */
  readonly dynamicMetadata: number;
  /** Whether both have the same list of texts, as within one workbook. */
  readonly sharesTexts: boolean;
  readonly formula: (text: string) => string;
}

/** Elements whose text is a formula. */
const FORMULAS = new Set(["f", "formula", "formula1", "formula2", "calculatedColumnFormula", "totalsRowFormula"]);

type Changes = Record<string, string | undefined>;

/** Attributes of an element that number styles or cell metadata. */
function changesOf(
  name: string,
  attributes: XmlAttributes,
  { styles, dynamicMetadata, sharesTexts }: SheetRewriting,
): Changes {
  const { s, style, dxfId, t, cm } = attributes;
  if (name === "c") {
    return {
      s: String(styles.cell(Number(s ?? 0))),
      ...(t === "s" && !sharesTexts ? { t: "inlineStr" } : {}),
      ...(cm === undefined ? {} : { cm: String(dynamicMetadata) }),
    };
  }
  if (name === "row" && s !== undefined) return { s: String(styles.cell(Number(s))) };
  if (name === "col" && style !== undefined) return { style: String(styles.cell(Number(style))) };
  if (name === "cfRule" && dxfId !== undefined) return { dxfId: String(styles.difference(Number(dxfId))) };
  // By this name macros know one sheet.
  if (name === "sheetPr") return { codeName: undefined };
  if (name === "sheetView") return { tabSelected: undefined };
  return {};
}

/** Rewrites a sheet's part for another workbook: styles, texts of the list of strings, and what formulas name. */
export function rewriteSheet(bytes: Uint8Array, place: string, rewriting: SheetRewriting): Uint8Array {
  const splices: Splice[] = [];
  let isSharedText = false;
  let collected: {
    readonly kind: "formula" | "text";
    readonly from: number;
    readonly tagStart: number;
    text: string;
  } | null = null;
  readXml(bytes, place, {
    open(name, attributes, depth, start, end) {
      const tag = utf8Text(bytes.subarray(start, end));
      const isEmpty = tag.endsWith("/>");
      if (name === "c") isSharedText = attributes["t"] === "s" && !rewriting.sharesTexts;
      if (FORMULAS.has(name) && !isEmpty) collected = { kind: "formula", from: end, tagStart: start, text: "" };
      else if (name === "v" && isSharedText && depth === 5)
        collected = { kind: "text", from: end, tagStart: start, text: "" };
      const changes = changesOf(name, attributes, rewriting);
      if (Object.keys(changes).length === 0) return;
      const text = changeTag(tag, changes, isEmpty ? "/>" : ">");
      if (text !== tag) splices.push({ start, end, text });
    },
    text(chunk) {
      if (collected !== null) collected.text += chunk;
    },
    close(_name, _depth, start, end) {
      if (collected === null) return;
      const { kind, from, tagStart, text } = collected;
      collected = null;
      if (kind === "formula") splices.push({ start: from, end: start, text: escapeXml(rewriting.formula(text)) });
      else splices.push({ start: tagStart, end, text: inlineText(rewriting.source.strings[Number(text)] ?? "") });
    },
  });
  return spliceBytes(bytes, splices);
}

function inlineText(text: string): string {
  return `<is><t xml:space="preserve">${escapeXml(encodeXstring(text))}</t></is>`;
}
