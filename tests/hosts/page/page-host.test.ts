import { createModel, typedContent } from "../../../src/engine/index.js";
import { pageHost } from "../../../src/hosts/page/page-host.js";
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
  return { host: pageHost(() => model), close: async () => undefined };
});
