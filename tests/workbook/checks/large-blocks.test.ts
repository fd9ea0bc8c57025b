import { describe, expect, it } from "vitest";
import { checkedFile, checkWorkbook } from "../../../src/workbook/index.js";
import { openWorkbook } from "../../../src/xlsx/index.js";
import { plainParts, zipParts } from "../../xlsx/plain-workbook.js";

/** What the checks find in a sheet whose name Factor stands for what is given. */
function findings(rows: string, factor: string) {
  const parts = plainParts(rows);
  const names = `</sheets><definedNames><definedName name="Factor">${factor}</definedName></definedNames>`;
  const list = (parts["xl/workbook.xml"] ?? "").replace("</sheets>", names);
  const workbook = openWorkbook(zipParts({ ...parts, "xl/workbook.xml": list }), "job.xlsx");
  return checkWorkbook(checkedFile(workbook)).findings;
}

const row = (number: number, cells: string) => `<row r="${number}">${cells}</row>`;
const faces = Array.from({ length: 50 }, (_, index) =>
  row(index + 1, `<c r="A${index + 1}"><f>_xldudf_VANE_OPENING_FREE(2,Factor)</f><v>1.5</v></c>`),
).join("");

describe("a formula that takes far more cells than a sheet has", () => {
  it("is checked by what stands in them: a factor above 1 is found wherever it is", () => {
    const wrong = faces.replace("</row>", '<c r="M1"><v>1.5</v></c></row>');
    expect(findings(wrong, "Sheet1!$M$1:$XFD$1048576")).toMatchObject([{ kind: "factor-out-of-range", cell: "M1" }]);
  });

  it("is left alone where the sheet itself has so many", () => {
    const corner = row(1_048_576, '<c r="XFD1048576"><v>1.5</v></c>');
    expect(findings(faces + corner, "Sheet1!$M$1:$XFD$1048576")).toEqual([]);
    const readings = row(60, '<c r="A60"><f>_xldudf_VANE_TRAVERSE_AVERAGE(B61:XFD1048576)</f><v>1</v></c>');
    expect(findings(readings + corner, "1")).toEqual([]);
  });
});
