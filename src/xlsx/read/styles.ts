import { readXml } from "../xml/read-xml.js";

/** What a number format makes of a number. */
export type NumberKind = "general" | "number" | "percent" | "date" | "text";

/** What we need to know of a cell's style. */
export interface CellStyle {
  readonly numberFormat: string;
  readonly numberKind: NumberKind;
  /** Whether sheet protection, where it is on, locks the cell. */
  readonly isLocked: boolean;
}

/**
 * Number formats that a file does not spell out. Those left out (5 to 8 and 41 to 44, money) differ from country to
 * country but always show a plain number.
 *
 * @source ECMA-376-1:2016, section 18.8.30 (numFmt)
 */
const BUILT_IN_FORMATS: ReadonlyMap<number, string> = new Map([
  [0, "General"],
  [1, "0"],
  [2, "0.00"],
  [3, "#,##0"],
  [4, "#,##0.00"],
  [9, "0%"],
  [10, "0.00%"],
  [11, "0.00E+00"],
  [12, "# ?/?"],
  [13, "# ??/??"],
  [14, "mm-dd-yy"],
  [15, "d-mmm-yy"],
  [16, "d-mmm"],
  [17, "mmm-yy"],
  [18, "h:mm AM/PM"],
  [19, "h:mm:ss AM/PM"],
  [20, "h:mm"],
  [21, "h:mm:ss"],
  [22, "m/d/yy h:mm"],
  [37, "#,##0 ;(#,##0)"],
  [38, "#,##0 ;[Red](#,##0)"],
  [39, "#,##0.00;(#,##0.00)"],
  [40, "#,##0.00;[Red](#,##0.00)"],
  [45, "mm:ss"],
  [46, "[h]:mm:ss"],
  [47, "mmss.0"],
  [48, "##0.0E+0"],
  [49, "@"],
]);

/** A cell without a style of its own. */
export const PLAIN_STYLE: CellStyle = { numberFormat: "General", numberKind: "general", isLocked: true };

/** Tells dates, percentages and text from plain numbers by their number format. */
export function numberKindOf(numberFormat: string): NumberKind {
  const [positive = ""] = numberFormat.split(";");
  // Quoted words, escaped letters, fill and width characters, and colours or locales in brackets are not placeholders.
  const bare = positive.replace(/"[^"]*"|[\\*_].|\[(?![hms]+\])[^\]]*\]/gi, "");
  if (/^general$/i.test(bare.trim()) || bare.trim() === "") return "general";
  if (bare.includes("%")) return "percent";
  if (bare.includes("@")) return "text";
  return /[ymdhs]/i.test(bare) ? "date" : "number";
}

/** Reads number format and lock of every cell style. */
export function readStyles(bytes: Uint8Array, place: string): readonly CellStyle[] {
  const formats = new Map(BUILT_IN_FORMATS);
  const styles: CellStyle[] = [];
  let isInCellFormats = false;
  readXml(bytes, place, {
    open(name, attributes, depth) {
      if (depth === 2) isInCellFormats = name === "cellXfs";
      if (depth === 3 && name === "numFmt") {
        const { numFmtId: id, formatCode: code } = attributes;
        if (id !== undefined && code !== undefined) formats.set(Number(id), code);
      }
      if (depth === 3 && isInCellFormats && name === "xf") {
        const numberFormat = formats.get(Number(attributes["numFmtId"] ?? 0)) ?? "0";
        styles.push({ numberFormat, numberKind: numberKindOf(numberFormat), isLocked: true });
      }
      if (depth === 4 && isInCellFormats && name === "protection") {
        const style = styles.pop();
        const isLocked = attributes["locked"] !== "0" && attributes["locked"] !== "false";
        if (style !== undefined) styles.push({ ...style, isLocked });
      }
    },
  });
  return styles;
}
