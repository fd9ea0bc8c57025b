import { base64 } from "./base64.js";
import { asHostError } from "./run-excel.js";

/** Opens a file as a new workbook beside the one at hand; the person saves it where it belongs. */
export async function openWorkbook(bytes: Uint8Array): Promise<void> {
  try {
    await Excel.createWorkbook(base64(bytes));
  } catch (thrown) {
    throw asHostError("The new workbook could not be opened. Download it instead.", thrown);
  }
}
