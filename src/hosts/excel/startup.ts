import { afterCellEdit } from "./after-cell-edit.js";
import { asHostError } from "./run-excel.js";

/**
 * Lets Excel load the add-in whenever this workbook is opened, or no longer; it changes the workbook only where that is
 * not so yet. Until the add-in has loaded, formulas that were saved show what was stored, and new ones `#NAME?`.
 *
 * @throws {HostError} Where Excel refuses, as in a workbook that was opened for reading
 * @source Microsoft, Run code in your Office Add-in when the document opens
 */
export async function loadWithWorkbook(isWanted: boolean): Promise<void> {
  if (!Office.context.requirements.isSetSupported("SharedRuntime", "1.1")) return;
  const wanted = isWanted ? Office.StartupBehavior.load : Office.StartupBehavior.none;
  try {
    await afterCellEdit(async () => {
      if ((await Office.addin.getStartupBehavior()) === wanted) return;
      await Office.addin.setStartupBehavior(wanted);
    });
  } catch (thrown) {
    throw asHostError("Excel will not load Vanesheet with this workbook.", thrown);
  }
}

/** Shows the pane where Excel has loaded it out of sight. */
export async function showPane(): Promise<void> {
  if (document.visibilityState === "hidden") await Office.addin.showAsTaskpane();
}
