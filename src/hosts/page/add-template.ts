import { HostError, type TemplateId } from "../../workbook/index.js";
import type { Desk } from "./desk.js";

/** Adds a template's sheets behind those of the open workbook and returns their names. */
export async function addTemplateTo(_desk: Desk, template: TemplateId): Promise<readonly string[]> {
  throw new HostError(`The template “${template}” cannot be added to this page yet. Nothing was changed.`);
}
