import type { WorkbookPlan } from "../template/sheet-plan.js";
import type { CalculatedValues, Entries } from "./calculated-values.js";
import { packedParts } from "./packed-parts.js";
import { withWebExtension } from "./web-extension.js";
import { writtenParts } from "./written-parts.js";

/** Works a plan out: every result, by sheet and address. */
export type Calculate = (plan: WorkbookPlan, entries: Entries) => CalculatedValues;

/**
 * Writes a template as an .xlsx file with its calculated values stored and a reference to the add-in.
 *
 * @param entries - What a person has filled in, by sheet and address; {} for a blank template
 */
export async function writeTemplate(plan: WorkbookPlan, entries: Entries, calculate: Calculate): Promise<Uint8Array> {
  return packedParts(withWebExtension(await writtenParts(plan, entries, calculate(plan, entries))));
}
