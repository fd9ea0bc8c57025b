import { HostError, type TemplateId, type TemplateOptions } from "../../workbook/index.js";
import { base64 } from "./base64.js";
import { planRepair, repairSheets } from "./repair-formulas.js";
import { runExcel } from "./run-excel.js";

/** Gives the bytes of a template's workbook. */
export type TemplateBytes = (template: TemplateId, options: TemplateOptions) => Promise<Uint8Array>;

function requireInsertion(): void {
  if (Office.context.requirements.isSetSupported("ExcelApi", "1.13")) return;
  throw new HostError(
    "This Excel cannot take in a sheet from the pane. Open the template's file instead, or use a newer Excel, such as Microsoft 365 or Excel on the web.",
  );
}

async function insertSheets(bytes: Uint8Array): Promise<readonly string[]> {
  return runExcel("No sheet was added.", async (context) => {
    const inserted = context.workbook.insertWorksheetsFromBase64(base64(bytes), {
      positionType: Excel.WorksheetPositionType.end,
    });
    await context.sync();
    const sheets = inserted.value.map((id) => context.workbook.worksheets.getItem(id));
    for (const sheet of sheets) sheet.load("name");
    sheets[0]?.activate();
    await context.sync();
    return sheets.map(({ name }) => name);
  });
}

/**
 * Adds the sheets of a template behind the others and returns their names; no other sheet is touched.
 *
 * The template's formulas come in the spelling of files. Where Excel does not know it at once, they are entered again.
 */
export async function addTemplate(
  template: TemplateId,
  options: TemplateOptions,
  templateBytes: TemplateBytes,
): Promise<readonly string[]> {
  requireInsertion();
  const added = await insertSheets(await templateBytes(template, options));
  try {
    const plan = await planRepair(added);
    if (plan.count > 0) await repairSheets(plan);
  } catch (cause) {
    const names = added.map((name) => `“${name}”`).join(", ");
    throw new HostError(`${names} were added, but formulas there may show #NAME?. Use the repair in the pane.`, {
      cause,
    });
  }
  return added;
}
