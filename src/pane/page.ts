/*
 * The entry of the local workbook page.
 */
import { openPage } from "../hosts/page/index.js";
import { mountPane } from "./mount-pane.js";

const host = await openPage();
const pane = document.getElementById("pane");
if (pane === null) throw new Error("The page has no place for the pane.");
mountPane(host, pane, () => null);
