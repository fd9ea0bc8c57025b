import type { WorkbookHabits } from "../../workbook/index.js";
import { runExcel } from "./run-excel.js";

/** Day 2 January 1904 is number 1 where days count from 1904, and 1463 where they count from 1900. */
const FIRST_DAYS_OF_1904 = 1;

/** Says how numbers and days are written in the workbook that is open. */
export async function workbookHabits(): Promise<WorkbookHabits> {
  const knowsSigns = Office.context.requirements.isSetSupported("ExcelApi", "1.11");
  return runExcel("How this workbook writes numbers could not be read.", async (context) => {
    const { application, functions } = context.workbook;
    const day = functions.date(1904, 1, 2);
    day.load("value");
    if (knowsSigns) application.load("decimalSeparator");
    await context.sync();
    return {
      decimalSign: knowsSigns && application.decimalSeparator === "," ? "," : ".",
      daysFrom: Number(day.value) === FIRST_DAYS_OF_1904 ? 1904 : 1900,
    };
  });
}
