import { parseRanges } from "../read/sheet-extras.js";
import { isTrue } from "../read/workbook-part.js";
import type { XmlAttributes, XmlHandler } from "../xml/read-xml.js";
import { colorOf } from "./colors.js";
import type { ConditionalRule } from "./sheet-look.js";

type Draft = { -readonly [Key in keyof ConditionalRule]: ConditionalRule[Key] } & {
  formulas: string[];
  thresholds: { type: string; value: string }[];
  colors: string[];
};

/**
 * Hears the conditional formats of a sheet, those of its own list. A newer program's extension list repeats some of them
 * with more detail, and is left out.
 *
 * @source ECMA-376-1:2016, sections 18.3.1.10 (cfRule) and 18.3.1.18 (conditionalFormatting)
 */
export function makeRulesReader(theme: readonly string[]): XmlHandler & { readonly rules: ConditionalRule[] } {
  const rules: ConditionalRule[] = [];
  let ranges: ConditionalRule["ranges"] = [];
  let draft: Draft | undefined;
  let isInFormula = false;
  return {
    rules,
    open(name, attributes, depth) {
      if (depth === 2) ranges = name === "conditionalFormatting" ? parseRanges(attributes["sqref"] ?? "") : [];
      if (depth === 3 && name === "cfRule" && ranges.length > 0) draft = draftOf(attributes, ranges);
      if (draft === undefined || depth < 4) return;
      if (name === "formula") {
        isInFormula = true;
        draft.formulas.push("");
      } else if (name === "cfvo") {
        draft.thresholds.push({ type: attributes["type"] ?? "", value: attributes["val"] ?? "" });
      } else if (name === "color") draft.colors.push(colorOf(attributes, theme) ?? "FFFFFF");
    },
    text(chunk) {
      if (!isInFormula || draft === undefined) return;
      draft.formulas.push((draft.formulas.pop() ?? "") + chunk);
    },
    close(name, depth) {
      isInFormula = false;
      if (depth !== 3 || name !== "cfRule" || draft === undefined) return;
      rules.push(draft);
      draft = undefined;
    },
  };
}

function draftOf(attributes: XmlAttributes, ranges: ConditionalRule["ranges"]): Draft {
  const { type = "", operator = "", priority, stopIfTrue, dxfId, text = "", rank, percent, bottom } = attributes;
  return {
    ranges,
    type,
    operator,
    formulas: [],
    priority: Number(priority ?? 0) || 0,
    stopsOthers: isTrue(stopIfTrue),
    look: dxfId === undefined ? undefined : Number(dxfId),
    text,
    rank: Number(rank ?? 10) || 10,
    isPercent: isTrue(percent),
    isBottom: isTrue(bottom),
    thresholds: [],
    colors: [],
  };
}
