/* The other side of the roll-up's benchmark: every workbook of a folder with a general reader, one after the other. */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import ExcelJS from "exceljs";

const FIRST_ROW = 10;
const MEASURED_AFTER = 17;

const [folder = "."] = process.argv.slice(2);
let [files, refused, sum] = [0, 0, 0];
for (const name of readdirSync(folder, { recursive: true, encoding: "utf8" })) {
  if (!name.endsWith(".xlsx")) continue;
  files += 1;
  try {
    const workbook = new ExcelJS.Workbook();
    await workbook.xlsx.readFile(join(folder, name));
    workbook.getWorksheet("Job summary")?.eachRow((row, number) => {
      const { value } = row.getCell(MEASURED_AFTER);
      if (number >= FIRST_ROW && typeof value === "number") sum += value;
    });
  } catch {
    // Which it cannot read does not matter here.
    refused += 1;
  }
}
console.log(JSON.stringify({ files, refused, sum }));
