import type { TemplateId } from "../host.js";
import { beforeAfter } from "./before-after/before-after.js";
import { ductTraverse } from "./duct-traverse/duct-traverse.js";
import { faceSweep } from "./face-sweep/face-sweep.js";
import { jobSummary } from "./job-summary/job-summary.js";
import { roomBalance } from "./room-balance/room-balance.js";
import type { TemplatePlan } from "./sheet-plan.js";
import type { TemplateOptions } from "./template-options.js";

/**
 * Every template, by its id; the suffix is put behind sheet and table names where one stands in the workbook already.
 * Without options it is the template as its file has it.
 */
export const TEMPLATES: Readonly<Record<TemplateId, (suffix: string, options?: TemplateOptions) => TemplatePlan>> = {
  "room-balance": roomBalance,
  "duct-traverse": ductTraverse,
  "face-sweep": faceSweep,
  "before-after": beforeAfter,
  "job-summary": jobSummary,
};
