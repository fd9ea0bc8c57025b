import { describe, expect, it } from "vitest";
import { type PlacedTable, withoutTableReferences } from "../../src/xlsx/index.js";

const column = (name: string) => ({ name });
const OUTLETS: PlacedTable = {
  sheet: "Up & down's",
  table: {
    name: "Outlets",
    range: { firstRow: 4, firstColumn: 2, lastRow: 9, lastColumn: 5 },
    headerRows: 1,
    totalsRows: 1,
    columns: [column("Room"), column("Width"), column("Height"), column("cfm [design]")],
  },
};

/** A cell within the table. */
const CELL = { sheet: "Up & down's", row: 7, column: 5 };

describe("a reference to a table, as cells", () => {
  // What each specifier means: ECMA-376-1, 18.17.2.4, structured references
  it.each([
    ["Outlets[Width]", "'Up & down''s'!$C$5:$C$8"],
    ["SUM(Outlets[[#All],[Width]])", "SUM('Up & down''s'!$C$4:$C$9)"],
    ["Outlets[[#This Row],[Width]]*2", "'Up & down''s'!$C7*2"],
    ["Outlets[@Width]", "'Up & down''s'!$C7"],
    ["Outlets[@[cfm '[design']]]/2", "'Up & down''s'!$E7/2"],
    ["Outlets[@[Width]:[Height]]", "'Up & down''s'!$C7:$D7"],
    ["Outlets[@]", "'Up & down''s'!$B7:$E7"],
    ["[@Width]*[@Height]", "'Up & down''s'!$C7*'Up & down''s'!$D7"],
    ["SUM([Width])", "SUM('Up & down''s'!$C$5:$C$8)"],
    ["outlets[[#this row],[width]:[Height]]", "'Up & down''s'!$C7:$D7"],
    ["Outlets[#Headers]", "'Up & down''s'!$B$4:$E$4"],
    ["Outlets[[#Data],[#Totals],[Height]]", "'Up & down''s'!$D$5:$D$9"],
    ["Outlets[cfm '[design']]", "'Up & down''s'!$E$5:$E$8"],
    ["Outlets[]", "'Up & down''s'!$B$5:$E$8"],
    ['IF(A1="Outlets[Width]",1,2)', 'IF(A1="Outlets[Width]",1,2)'],
  ])("%s is %s", (formula, cells) => {
    expect(withoutTableReferences(formula, CELL, [OUTLETS])).toBe(cells);
  });

  it("is refused where the table, the column, the item or the row is not there", () => {
    for (const formula of ["Inlets[Width]", "Outlets[Depth]", "Outlets[#Nonsense]", "[1]Sheet1!A1"]) {
      expect(withoutTableReferences(formula, CELL, [OUTLETS])).toBeUndefined();
    }
    expect(withoutTableReferences("Outlets[@Width]", { ...CELL, row: 20 }, [OUTLETS])).toBeUndefined();
  });

  it("without a table's name is refused outside a table", () => {
    for (const cell of [
      { ...CELL, sheet: "Rooms" },
      { ...CELL, row: 10 },
      { ...CELL, column: 6 },
    ]) {
      expect(withoutTableReferences("[@Width]", cell, [OUTLETS])).toBeUndefined();
    }
  });
});
