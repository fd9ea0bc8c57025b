import { registerBatchEdits } from "./batch-edits.js";
import { registerFileNames } from "./file-names.js";
import { registerFilteredRows } from "./filtered-rows.js";
import { registerCalculation } from "./in-steps/calculate-in-steps.js";
import { registerKeepInPlace } from "./keep-in-place.js";
import { registerPaste } from "./paste-cells.js";
import { prepareLibrary } from "./prepare-library.js";
import { registerProtection } from "./protect-cells.js";
import { registerFunctions } from "./register-functions.js";
import { registerNative } from "./register-native.js";

/** Makes the library speak Excel's error codes and know our functions; calling it again does nothing. */
export function prepareEngine(): void {
  prepareLibrary();
  registerNative();
  registerFunctions();
  registerBatchEdits();
  registerProtection();
  registerKeepInPlace();
  registerFileNames();
  registerPaste();
  registerFilteredRows();
  registerCalculation();
}
