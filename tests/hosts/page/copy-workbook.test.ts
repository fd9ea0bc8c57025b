import { describe, expect, it } from "vitest";
import { createModel } from "../../../src/engine/index.js";
import { copyWorkbook } from "../../../src/hosts/page/copy-workbook.js";
import { checkCopy } from "../../../src/hosts/page/file/check-copy.js";
import { checkedHost, checkWorkbook, TEMPLATES, type TemplateId } from "../../../src/workbook/index.js";
import { filledWorkbook } from "../../support/filled-workbook.js";
import { pageHostOver } from "./page-host-over.js";

describe("a copy of the workbook in the grid", () => {
  it.each(Object.keys(TEMPLATES) as TemplateId[])(
    "of %s is found to hold what the workbook itself holds",
    async (id) => {
      const filled = filledWorkbook(id);
      const [first, ...others] = filled.sheets;
      const broken = {
        ...first,
        name: first?.name ?? "",
        cells: { ...first?.cells, H9: "door shut", I9: -3, A40: "=1/0" },
      };
      for (const given of [filled, { ...filled, sheets: [broken, ...others] }]) {
        const host = pageHostOver(given);
        const report = checkWorkbook(await checkedHost(host));
        expect(await host.check?.()).toEqual(report);
        expect(report.formulaCount).toBeGreaterThan(0);
      }
    },
  );

  it("is of one moment: it begins anew where something is entered meanwhile", async () => {
    const cells = { A1: "1", A200: "1", B1: "=A1", B200: "=A200" };
    const model = createModel({ sheets: [{ id: "s", name: "Sheet1", colNumber: 4, rowNumber: 300, cells }] });
    const enter = (row: number) => model.dispatch("UPDATE_CELL", { sheetId: "s", col: 0, row, content: "2" });
    let asked = 0;
    const copy = await copyWorkbook(model, {
      sheets: async () => [{ name: "Sheet1", usedRange: "A1:B200", isProtected: false }],
      async names() {
        asked += 1;
        if (asked === 1) for (const row of [0, 199]) enter(row);
        return new Map();
      },
    });
    expect(asked).toBe(2);
    const rows = (copy.rows["Sheet1"] ?? []).flatMap((text) => (JSON.parse(text) as { values: unknown[][] }).values);
    expect([rows[0], rows[199]]).toEqual([
      [2, 2],
      [2, 2],
    ]);
    expect((await checkCopy(copy)).formulaCount).toBe(2);
  });
});
