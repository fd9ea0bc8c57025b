import { readFileSync } from "node:fs";
import { typedContent } from "../../../src/engine/index.js";
import { pageHost } from "../../../src/hosts/page/page-host.js";
import type { DEMONSTRATION_FILE, InteractiveHost, TemplateId, WorkbookPlan } from "../../../src/workbook/index.js";
import type { GivenWorkbook } from "../contract.js";
import { pageInNode } from "./page-in-node.js";

/** A template's file, or the demonstration's, from the folder that the page ships. */
export async function templateFile(template: TemplateId | typeof DEMONSTRATION_FILE): Promise<Uint8Array> {
  return readFileSync(`templates/${template}.xlsx`);
}

/** Opens a workbook in the page's engine, without a screen. */
export function pageHostOver({ sheets, names }: GivenWorkbook): InteractiveHost {
  const data = {
    sheets: sheets.map(({ name, cells, hiddenRows = [], mergedRanges = [] }) => ({
      id: name,
      name,
      colNumber: 40,
      rowNumber: 120,
      merges: [...mergedRanges],
      rows: Object.fromEntries(hiddenRows.map((row) => [row - 1, { isHidden: true }])),
      cells: Object.fromEntries(Object.entries(cells).map(([at, content]) => [at, typedContent(content)])),
    })),
    namedRanges: names,
  };
  const context = pageInNode({
    title: "Balance",
    data,
    movedSheetIds: [],
    protectedSheetIds: [],
    isChanged: false,
    file: null,
  });
  return pageHost(context, context.watchers, templateFile);
}

/** The sheets of a template as a workbook that was just started from it. */
export function givenPlan({ sheets, names }: WorkbookPlan): GivenWorkbook {
  return {
    sheets: sheets.map(({ name, cells }) => ({
      name,
      cells: Object.fromEntries(cells.flatMap(({ at, content }) => (content === null ? [] : [[at, content]]))),
    })),
    names: Object.fromEntries(names.map(({ name, refersTo }) => [name, refersTo])),
  };
}
