import { JOB_NAMES, jobSheet } from "../job-sheet.js";
import { notesSheet } from "../notes-sheet.js";
import type { TemplatePlan } from "../sheet-plan.js";
import { tablePlaces } from "../table-block.js";
import { tableSheet } from "../table-sheet.js";
import { type TemplateOptions, USUAL_POINTS } from "../template-options.js";
import { AMOUNTS, changesTable } from "./changes-table.js";
import { BEFORE_AFTER_NOTES } from "./notes.js";

/**
 * The same outlets as found and as left: did the airflow change, and by how much.
 *
 * @param suffix - Put behind every sheet and table name where a workbook holds a second one; "" otherwise
 */
export function beforeAfter(
  suffix: string,
  { points = USUAL_POINTS["before-after"] }: TemplateOptions = {},
): TemplatePlan {
  const table = changesTable(suffix.trim(), points);
  const range = tablePlaces(table).rangeOf;
  const letters = range("answer").replace(/[0-9]+:.*/, "");
  const first = table.headerRow + 1;
  return {
    template: "before-after",
    title: "Before and after",
    description: "The same outlets as found and as left: did the airflow change, and by how much.",
    sheets: [
      jobSheet(),
      tableSheet({
        name: `Before and after${suffix}`,
        title: "Before and after",
        lead: "B: before the work. A: after it, with the same meter, at the same places. Two questions: did it change, and is the amount known?",
        table,
        sectionsEndAfter: ["design", `B${points}`, `A${points}`, "answer", "amount"],
        verdicts: ["beforeVerdict", "afterVerdict"],
        formats: [
          {
            kind: "formula",
            range: range("answer"),
            formula: `OR(LEFT($${letters}${first},6)="higher",LEFT($${letters}${first},5)="lower")`,
            style: "within",
          },
          { kind: "formula", range: range("answer"), formula: `LEFT($${letters}${first},2)="no"`, style: "incomplete" },
          { kind: "word", range: range("amount"), word: AMOUNTS.known, style: "within" },
          { kind: "word", range: range("amount"), word: AMOUNTS.unknown, style: "incomplete" },
          { kind: "word", range: range("basis"), word: "assumed", style: "low" },
        ],
      }),
      notesSheet(
        `Before and after notes${suffix}`,
        "How to compare before and after, what the sheet assumes, and what to be careful about.",
        ...BEFORE_AFTER_NOTES,
      ),
    ],
    names: [...JOB_NAMES],
  };
}
