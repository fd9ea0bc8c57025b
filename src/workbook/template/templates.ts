import type { TemplateId } from "../host.js";
import { beforeAfter } from "./before-after/before-after.js";
import { ductTraverse } from "./duct-traverse/duct-traverse.js";
import { faceSweep } from "./face-sweep/face-sweep.js";
import { jobSummary } from "./job-summary/job-summary.js";
import { roomBalance } from "./room-balance/room-balance.js";
import type { TemplatePlan } from "./sheet-plan.js";

/** Every template, by its id; the argument is put behind sheet and table names where one stands in the workbook already. */
export const TEMPLATES: Readonly<Record<TemplateId, (suffix: string) => TemplatePlan>> = {
  "room-balance": roomBalance,
  "duct-traverse": ductTraverse,
  "face-sweep": faceSweep,
  "before-after": beforeAfter,
  "job-summary": jobSummary,
};
