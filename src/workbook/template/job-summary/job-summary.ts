import { JOB_NAMES, jobSheet } from "../job-sheet.js";
import { notesSheet } from "../notes-sheet.js";
import { unit } from "../plain-formulas.js";
import { cell } from "../plan-parts.js";
import type { TemplatePlan } from "../sheet-plan.js";
import { type TableSpec, tablePlaces } from "../table-block.js";
import { pageEndColumns, tableSheet } from "../table-sheet.js";
import { type Total, totalsBand } from "../totals-band.js";
import { JOB_SUMMARY_COLUMNS, JOB_SUMMARY_SHEET } from "./columns.js";
import { JOB_SUMMARY_STEPS } from "./notes.js";
import { summaryTable } from "./summary-table.js";

function totals(spec: TableSpec): readonly Total[] {
  const range = tablePlaces(spec).fixedRangeOf;
  const [before, after, design, percent] = [range("before"), range("after"), range("design"), range("percent")];
  const counted = (word: string) => `=COUNTIF(${range("verdict")},"${word}")`;
  const measured = `SUMIFS(${after},${percent},">-1E300")+SUMIFS(${before},${percent},">-1E300",${after},"")`;
  const designed = `SUMIFS(${design},${percent},">-1E300")`;
  const onceMeasured = (formula: string) => `=IF(COUNT(${percent})=0,"",${formula})`;
  return [
    { label: "Outlets listed", formula: `=COUNTA(${range("outlet")})`, format: "whole" },
    { label: "Outlets measured", formula: `=COUNT(${percent})`, format: "whole" },
    { label: "Outlets within", formula: counted("within"), format: "whole" },
    { label: "Outlets low", formula: counted("low"), format: "whole" },
    { label: "Outlets high", formula: counted("high"), format: "whole" },
    { label: "Outlets open", formula: counted("open"), format: "whole" },
    { label: "Design of those measured", formula: onceMeasured(designed), format: "oneDecimal" },
    { label: "Measured", formula: onceMeasured(measured), format: "oneDecimal" },
    { label: "Percent of design", formula: onceMeasured(`(${measured})/${designed}*100`), format: "oneDecimal" },
  ];
}

/**
 * The sheet that a roll-up across jobs reads: one row an outlet, in fixed columns.
 *
 * @param suffix - Put behind every sheet and table name where a workbook holds a second summary; "" otherwise
 */
export function jobSummary(suffix: string): TemplatePlan {
  const table = summaryTable(suffix.trim());
  const band = totalsBand(totals(table), 5, pageEndColumns(table));
  return {
    template: "job-summary",
    title: "Job summary",
    description: "One row per outlet in fixed columns, which a roll-up across jobs reads.",
    sheets: [
      jobSheet(),
      tableSheet({
        name: `${JOB_SUMMARY_SHEET}${suffix}`,
        title: "Job summary",
        lead: "One row per outlet. The columns are fixed, so that many jobs add up.",
        table,
        above: [cell("A5", "Whole job", "label"), cell("A6", unit("cfm", "L/s"), "lead"), ...band.cells],
        merges: band.merges,
        rowHeights: { 5: 28, 6: 20, 9: 42 },
      }),
      notesSheet(
        `Job summary notes${suffix}`,
        "How to fill the summary, what each column means, and what to be careful about.",
        JOB_SUMMARY_STEPS,
        JOB_SUMMARY_COLUMNS.map(({ header, meaning }) => [`Column ${header}`, meaning] as const),
      ),
    ],
    names: [...JOB_NAMES],
  };
}
