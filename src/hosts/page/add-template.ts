import { exportInSteps, modelInSteps } from "../../engine/index.js";
import type { TemplateId, TemplateOptions } from "../../workbook/index.js";

import { activate } from "./activate-sheet.js";
import { changesSince } from "./file/changes-since.js";
import type { ExportedSheet, ExportedWorkbook } from "./file/engine-export.js";
import { addSheets, withSheetIds } from "./file/join-workbooks.js";
import { bytesOnDisk, type PageFile } from "./file/page-file.js";
import { inSlices } from "./in-slices.js";
import type { PageContext } from "./page-context.js";
import { fileNameOf, newName, whole } from "./save-file.js";
import type { TemplateBytes } from "./template-bytes.js";
import type { WorkbookView } from "./workbook-view.js";

/** The file to which sheets are added: the one that is open, or a new one where that cannot take the changes in. */
async function baseOf(context: PageContext, view: WorkbookView): Promise<PageFile> {
  const file = view.file();
  if (
    file !== null &&
    changesSince(file.baseline, await view.exportedInSlices(), view.movedSheetIds, file.entered).structure.length === 0
  )
    return file;
  const { bytes, current } = await whole(context, view);
  const name = file === null ? fileNameOf(view) : newName(file.name);
  return { name, bytes, baseline: current, kept: [], words: file?.words ?? {}, handle: null };
}

/**
 * Adds a template's sheets behind those of the open workbook, in the page and in the bytes of its file, and returns their
 * names. What was entered so far stays, and is saved when the person saves.
 */
export async function addTemplateTo(
  context: PageContext,
  template: TemplateId,
  options: TemplateOptions,
  bytesOf: TemplateBytes,
): Promise<readonly string[]> {
  const view = context.view();
  const bytes = await bytesOf(template, options);
  const base = await baseOf(context, view);
  const appended = await context.run("append", base.bytes, base.name, bytes);
  const known = new Map(base.baseline.sheets.map(({ id, name }) => [name, id]));
  const ids = (id: string, name: string): string => known.get(name) ?? `added-${appended.bytes.length}-${id}`;
  const conversion = withSheetIds(appended.conversion, ids);
  const data = conversion.data as unknown as ExportedWorkbook;
  const isAdded = ({ name }: Pick<ExportedSheet, "name">): boolean => appended.sheets.includes(name);
  const current = await view.exportedInSlices();
  const id = view.identity();
  const added = {
    ...(id === null ? {} : { identity: id }),
    title: base.name,
    data: addSheets(current, data, isAdded),
    movedSheetIds: [...view.movedSheetIds],
    protectedSheetIds: [
      ...view.protectedSheetIds,
      ...conversion.protectedSheetIds.filter((id) => ![...known.values()].includes(id)),
    ],
    isChanged: true,
    file: null,
    drawings: { ...conversion.drawings, ...(base === view.file() ? view.drawings() : {}) },
  };
  const next = await context.show(added, true);
  const asRead = async () => inSlices(exportInSteps(await inSlices(modelInSteps(conversion.data, {}))));
  const baseline = base === view.file() ? ((await asRead()) as ExportedWorkbook) : next.exported();
  const words = { ...conversion.words, ...base.words };
  await next.setFile({ ...base, bytes: appended.bytes, baseline, words, onDisk: bytesOnDisk(base) }, true);
  const first = next.exported().sheets.find(isAdded);
  if (first !== undefined) activate(next.model, first.id);
  return appended.sheets;
}
