import { type CellRange, parseRange } from "../address.js";
import type { DataValidation, SheetLayout } from "../sheet.js";
import type { XmlAttributes, XmlHandler } from "../xml/read-xml.js";
import { decodeXstring } from "../xml/text.js";
import { isTrue } from "./workbook-part.js";

/** Reads ranges separated by spaces; what is not a range is left out. */
export function parseRanges(text: string): readonly CellRange[] {
  return text
    .split(/\s+/)
    .map(parseRange)
    .filter((range) => range !== undefined);
}

/** Hears the merged ranges of a sheet. */
export function makeMergesReader(): XmlHandler & { readonly ranges: CellRange[] } {
  const ranges: CellRange[] = [];
  return {
    ranges,
    open(name, attributes) {
      if (name === "mergeCell") ranges.push(...parseRanges(attributes["ref"] ?? ""));
    },
  };
}

/** Hears the columns that have a style of their own. */
export function makeColumnsReader(): XmlHandler & { readonly styles: SheetLayout["columnStyles"][number][] } {
  const styles: SheetLayout["columnStyles"][number][] = [];
  return {
    styles,
    open(name, attributes) {
      const style = Number(attributes["style"] ?? 0);
      if (name !== "col" || !(style > 0)) return;
      styles.push({ first: Number(attributes["min"]), last: Number(attributes["max"]), style });
    },
  };
}

/**
 * Hears the rules on what may be typed, in both their places: the sheet's own list, and the extension list in which
 * newer programs keep rules that refer to other sheets.
 *
 * @source ECMA-376-1:2016, section 18.3.1.33; [MS-XLSX] 2.6.25 (CT_DataValidation of the extension)
 */
export function makeValidationsReader(): XmlHandler & { readonly validations: DataValidation[] } {
  const validations: DataValidation[] = [];
  let current: (Omit<DataValidation, "ranges" | "formula1" | "formula2"> & { ranges: string }) | undefined;
  let formulas = ["", ""];
  let target: 0 | 1 | "sqref" | undefined;
  return {
    validations,
    open(name, attributes) {
      if (name === "dataValidation") {
        const { type = "none", operator = "between", sqref = "" } = attributes;
        const allowsBlank = isTrue(attributes["allowBlank"]);
        current = { type, operator, allowsBlank, ranges: sqref, ...spokenOf(attributes) };
        formulas = ["", ""];
      } else if (name === "formula1") target = 0;
      else if (name === "formula2") target = 1;
      else if (name === "sqref") target = "sqref";
    },
    text(chunk) {
      if (target === undefined || current === undefined) return;
      if (target === "sqref") current.ranges += chunk;
      else formulas[target] += chunk.trim();
    },
    close(name) {
      if (name === "formula1" || name === "formula2" || name === "sqref") target = undefined;
      if (name !== "dataValidation" || current === undefined) return;
      const [formula1 = "", formula2 = ""] = formulas;
      validations.push({ ...current, ranges: parseRanges(current.ranges), formula1, formula2 });
      current = undefined;
    },
  };
}

/** How a rule speaks to the person: before an entry, and about one that breaks it. */
function spokenOf(attributes: XmlAttributes): Pick<DataValidation, "severity" | "prompt" | "refusal"> {
  const { errorStyle = "stop", promptTitle, prompt, errorTitle, error } = attributes;
  const severity = errorStyle === "warning" || errorStyle === "information" ? errorStyle : "stop";
  const words = (isShown: string | undefined, title = "", text = "") =>
    isTrue(isShown) ? { title: decodeXstring(title), text: decodeXstring(text) } : { title: "", text: "" };
  return {
    severity: isTrue(attributes["showErrorMessage"]) ? severity : "information",
    prompt: words(attributes["showInputMessage"], promptTitle, prompt),
    refusal: words(attributes["showErrorMessage"], errorTitle, error),
  };
}
