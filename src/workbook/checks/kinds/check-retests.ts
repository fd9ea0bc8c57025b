import { NOT_JUDGED, RETEST_HEADINGS } from "../../template/room-balance/retest-words.js";
import { isEmptyValue, type WorkbookIndex } from "../formulas/workbook-index.js";
import { type NameTable, retestTables } from "../listed/name-tables.js";
import { type Draft, oneCell } from "../support/draft.js";

/** What to do for each word of the sheet. A reading that is not a number is told at its own cell. */
const TO_DO: ReadonlyMap<unknown, string> = new Map(
  Object.values(NOT_JUDGED).filter(([word]) => word !== NOT_JUDGED.noNumber[0]),
);

const headingKey = (heading: string) => heading.toLowerCase();

const sentence = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;

/** The columns in which a witness's readings are typed. */
function readingColumns({ columns }: NameTable): readonly number[] {
  const isReading = new RegExp(`^${headingKey(RETEST_HEADINGS.reading)}\\d+$`);
  return [...columns].filter(([heading]) => isReading.test(heading)).map(([, column]) => column);
}

/** A sheet of an earlier version keeps no tag beside the readings: its formulas put whatever is drawn there. */
function withoutTags(index: WorkbookIndex, table: NameTable): readonly Draft[] {
  const { sheet, headerRow } = table;
  const columns = readingColumns(table);
  const lastRow = index.sheets[sheet]?.lastRow ?? 0;
  for (let row = headerRow + 1; row <= lastRow; row += 1) {
    const column = columns.find((one) => !isEmptyValue(index.valueAt(sheet, row, one)));
    if (column === undefined) continue;
    return [
      {
        kind: "retest-not-judged",
        severity: "error",
        sheet,
        range: oneCell(row, column),
        problem:
          "Nothing says of which outlets the witness's readings are: another seed or a sorted list puts them beside others.",
        action: "Compare them with the signed record, and enter them in a workbook of this version.",
      },
    ];
  }
  return [];
}

function notJudged(index: WorkbookIndex, table: NameTable): readonly Draft[] {
  const { sheet, headerRow, columns } = table;
  const [read, agreement] = [RETEST_HEADINGS.read, RETEST_HEADINGS.agreement].map((one) =>
    columns.get(headingKey(one)),
  );
  if (read === undefined || agreement === undefined) return withoutTags(index, table);
  const lastRow = index.sheets[sheet]?.lastRow ?? 0;
  const drafts: Draft[] = [];
  for (let row = headerRow + 1; row <= lastRow; row += 1) {
    const word = index.valueAt(sheet, row, agreement);
    const toDo = TO_DO.get(word);
    if (toDo === undefined) continue;
    const tag = index.valueAt(sheet, row, read);
    const whose = isEmptyValue(tag) ? "This row" : `“${String(tag)}”`;
    drafts.push({
      kind: "retest-not-judged",
      severity: "error",
      sheet,
      range: oneCell(row, read),
      problem: `${whose} is not judged in the re-test: ${String(word)}.`,
      action: sentence(toDo),
    });
  }
  return drafts;
}

/** Readings before a witness that count for nothing, as the sheet itself says, or of which nobody knows the outlet. */
export function checkRetests(index: WorkbookIndex): readonly Draft[] {
  return retestTables(index).flatMap((table) => notJudged(index, table));
}
