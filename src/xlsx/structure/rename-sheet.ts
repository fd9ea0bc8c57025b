import { changeReferences, type ReferenceChange } from "../formula/change-references.js";
import { placeOf, readOptionalPart } from "../package/read-part.js";
import type { PatchOptions } from "../patch/patch-workbook.js";
import type { Workbook } from "../workbook.js";
import { withParts } from "./restructure.js";
import { formulasRewritten } from "./rewrite-formulas.js";
import { rewritePart } from "./rewrite-part.js";
import type { PartRewrite } from "./rewrite-parts.js";
import { edits, macroNotice, namedInTexts, requireSheet, same, sheetNameProblem } from "./sheets-common.js";
import { partsOfType, type Restructured, refused } from "./structure-context.js";
import { sheetListAfter } from "./workbook-part.js";

/**
 * Gives a sheet another name. Formulas, names, rules, charts, links and pivot tables follow.
 *
 * @param workbook - As opened; it stays as it is
 * @throws {WorkbookFileError} For a name that is taken or that no sheet can have, before anything is changed
 */
export function renameSheet(
  workbook: Workbook,
  { sheet, name }: { readonly sheet: string; readonly name: string },
  options: PatchOptions = {},
): Restructured {
  const { entry, index } = requireSheet(workbook, sheet);
  const taken = workbook.sheets.filter((one) => one !== entry).map((one) => one.name);
  const problem = sheetNameProblem(name, taken);
  if (problem !== undefined) {
    throw refused(workbook, `sheet “${entry.name}”`, `cannot be called “${name.slice(0, 60)}”`, problem);
  }
  if (name === entry.name) return { workbook, outdated: [], notices: [] };
  const renamed = (one: string): string => (same(one, entry.name) ? name : one);
  const rename = (formula: string): string => {
    if (!formula.includes("!")) return formula;
    return changeReferences(formula, ({ sheet: first, lastSheet }): ReferenceChange | undefined => {
      if (first === undefined || ![first, lastSheet ?? first].some((one) => same(one, entry.name))) return undefined;
      return { sheet: renamed(first), lastSheet: lastSheet === undefined ? undefined : renamed(lastSheet) };
    });
  };
  const list = sheetListAfter(workbook, {
    order: workbook.sheets.map((_, place) => place),
    names: new Map([[index, name]]),
    refersTo: ({ refersTo }) => rename(refersTo),
  });
  const rewrites = [...formulasRewritten(workbook, rename), ...pivotSources(workbook, entry.name, name)];
  return {
    workbook: withParts(workbook, edits([...rewrites, [workbook.workbookPart, list]]), options),
    outdated: [],
    notices: [...namedInTexts(workbook, entry.name), ...macroNotice(workbook)],
  };
}

function pivotSources({ archive, ...workbook }: Workbook, from: string, to: string): readonly PartRewrite[] {
  return partsOfType({ archive, ...workbook }, /pivotcachedefinition\+xml/i).flatMap((partName) => {
    const bytes = readOptionalPart(archive, partName);
    if (bytes === undefined) return [];
    const after = rewritePart(bytes, placeOf(archive, partName), ({ name, attributes }) => {
      const isSource =
        name === "worksheetSource" && attributes["sheet"] !== undefined && same(attributes["sheet"], from);
      return isSource ? { attributes: { sheet: to } } : undefined;
    });
    return after === bytes ? [] : [[partName, after] as const];
  });
}
