/*
 * The entry of the local workbook page.
 */
import demo from "../../shared/demo/demo-house.json";
import { openPage } from "../hosts/page/index.js";
import type { DemoJob } from "../workbook/index.js";

await openPage(demo as DemoJob);
