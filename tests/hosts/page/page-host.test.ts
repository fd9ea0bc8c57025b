import { createModel, typedContent } from "../../../src/engine/index.js";
import { pageHost } from "../../../src/hosts/page/page-host.js";
import { makeWatchers } from "../../../src/hosts/page/watchers.js";
import { describeHostContract, type GivenWorkbook } from "../contract.js";

function modelOf({ sheets, names }: GivenWorkbook) {
  return createModel({
    sheets: sheets.map(({ name, cells }) => ({
      id: name,
      name,
      colNumber: 26,
      rowNumber: 100,
      cells: Object.fromEntries(Object.entries(cells).map(([at, content]) => [at, typedContent(content)])),
    })),
    namedRanges: names,
  });
}

describeHostContract("the local page", async (workbook) => {
  const model = modelOf(workbook);
  const watchers = makeWatchers();
  watchers.follow(model);
  return { host: pageHost(() => model, watchers), close: async () => undefined };
});
