/*
 * The entry of the local workbook page.
 */
import { openPage } from "../hosts/page/index.js";
import { mountPane } from "./mount-pane.js";
import { askForTab } from "./shell/asked-tab.js";
import { setFieldMode } from "./shell/field-mode.js";

const host = await openPage((isField) => {
  setFieldMode(isField);
  if (isField) askForTab("field");
});
const pane = document.getElementById("pane");
if (pane === null) throw new Error("The page has no place for the pane.");
mountPane(host, pane, () => null);
