import { describeHostContract } from "../contract.js";
import { pageHostOver } from "./page-host-over.js";

describeHostContract("the local page", async (workbook) => ({
  host: pageHostOver(workbook),
  close: async () => undefined,
}));
