import { BalanceTab } from "../balance/balance-tab.js";
import { CheckLabel } from "../check/check-label.js";
import { CheckTab } from "../check/check-tab.js";
import { MeasureTab } from "../measure/measure-tab.js";
import { ShareTab } from "../share/share-tab.js";
import { StartTab } from "../start/start-tab.js";
import type { Tab } from "./tab.js";

/** The tabs from left to right. A new one is added here and nowhere else. */
export const TABS: readonly Tab[] = [
  { id: "start", label: "Start", Panel: StartTab },
  { id: "measure", label: "Measure", Panel: MeasureTab },
  { id: "check", label: "Check", Label: CheckLabel, Panel: CheckTab },
  { id: "balance", label: "Balance", Panel: BalanceTab },
  { id: "share", label: "Share", Panel: ShareTab },
];
