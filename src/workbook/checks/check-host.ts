import type { InteractiveHost } from "../host.js";
import type { CheckReport } from "./check-report.js";
import { checkWorkbook } from "./check-workbook.js";
import { checkedHost } from "./source/from-host.js";

/** Looks through the workbook that a host has open, in the host's own way where that keeps nobody waiting. */
export async function checkHost(host: InteractiveHost): Promise<CheckReport> {
  return host.check === undefined ? checkWorkbook(await checkedHost(host)) : host.check();
}
