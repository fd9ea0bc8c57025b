/*
 * The entry of the local workbook page.
 */
import demo from "../../shared/demo/demo-house.json";
import { openPage } from "../hosts/page/index.js";
import type { DemoJob } from "../workbook/index.js";
import { mountPane } from "./mount-pane.js";

const host = await openPage(demo as DemoJob);
const pane = document.getElementById("pane");
if (pane === null) throw new Error("The page has no place for the pane.");
mountPane(host, pane);
