import { BalanceTab } from "../balance/balance-tab.js";
import { CheckLabel } from "../check/check-label.js";
import { CheckTab } from "../check/check-tab.js";
import { FieldTab } from "../field/field-tab.js";
import { MeasureTab } from "../measure/measure-tab.js";
import { ShareTab } from "../share/share-tab.js";
import { StartTab } from "../start/start-tab.js";
import type { Tab } from "./tab.js";

/** The tabs from left to right. A new one is added here and nowhere else. */
const TABS: readonly Tab[] = [
  { id: "start", label: "Start", Panel: StartTab },
  { id: "measure", label: "Measure", Panel: MeasureTab },
  { id: "check", label: "Check", Label: CheckLabel, Panel: CheckTab },
  { id: "balance", label: "Balance", Panel: BalanceTab },
  { id: "share", label: "Share", Panel: ShareTab },
];

/** Where the pane fills the screen, the outlets are worked through in it; beside a grid they are in the grid. */
const FIELD: Tab = { id: "field", label: "Outlets", Panel: FieldTab };

/** The tabs of the pane, beside a grid or in its place. */
export function tabsFor(isField: boolean): readonly Tab[] {
  return isField ? [FIELD, ...TABS] : TABS;
}
