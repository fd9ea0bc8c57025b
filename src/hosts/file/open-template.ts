import type { TemplateId } from "../../workbook/index.js";
import type { Workbook } from "../../xlsx/index.js";
import { openWorkbookFile } from "./open-workbook-file.js";
import { packageFile } from "./package-file.js";

/**
 * Opens a template that comes with the package.
 *
 * @throws {WorkbookFileError} When it is missing or damaged
 */
export async function openTemplate(template: TemplateId): Promise<Workbook> {
  const { workbook } = await openWorkbookFile(packageFile(`templates/${template}.xlsx`));
  return workbook;
}
