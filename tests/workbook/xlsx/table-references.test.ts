import { describe, expect, it } from "vitest";
import { type PlacedTable, withoutTableReferences } from "../../../src/workbook/xlsx/index.js";

const column = (name: string) => ({ name, calculatedFormula: undefined });
const OUTLETS: PlacedTable = {
  sheet: "Up & down's",
  table: {
    name: "Outlets",
    partName: "xl/tables/table1.xml",
    range: { firstRow: 4, firstColumn: 2, lastRow: 9, lastColumn: 5 },
    headerRows: 1,
    totalsRows: 1,
    columns: [column("Room"), column("Width"), column("Height"), column("cfm [design]")],
  },
};

describe("a reference to a table, as cells", () => {
  // What each specifier means: ECMA-376-1, 18.17.2.4, structured references
  it.each([
    ["Outlets[Width]", "'Up & down''s'!$C$5:$C$8"],
    ["SUM(Outlets[[#All],[Width]])", "SUM('Up & down''s'!$C$4:$C$9)"],
    ["Outlets[[#This Row],[Width]]*2", "'Up & down''s'!$C7*2"],
    ["Outlets[@Width]", "'Up & down''s'!$C7"],
    ["outlets[[#this row],[width]:[Height]]", "'Up & down''s'!$C7:$D7"],
    ["Outlets[#Headers]", "'Up & down''s'!$B$4:$E$4"],
    ["Outlets[[#Data],[#Totals],[Height]]", "'Up & down''s'!$D$5:$D$9"],
    ["Outlets[cfm '[design']]", "'Up & down''s'!$E$5:$E$8"],
    ["Outlets[]", "'Up & down''s'!$B$5:$E$8"],
    ['IF(A1="Outlets[Width]",1,2)', 'IF(A1="Outlets[Width]",1,2)'],
  ])("%s is %s", (formula, cells) => {
    expect(withoutTableReferences(formula, 7, [OUTLETS])).toBe(cells);
  });

  it("is refused where the table, the column, the item or the row is not there", () => {
    for (const formula of ["Inlets[Width]", "Outlets[Depth]", "Outlets[#Nonsense]", "[1]Sheet1!A1"]) {
      expect(withoutTableReferences(formula, 7, [OUTLETS])).toBeUndefined();
    }
    expect(withoutTableReferences("Outlets[@Width]", 20, [OUTLETS])).toBeUndefined();
  });
});
