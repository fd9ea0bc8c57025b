import { JOB_NAMES, jobSheet } from "../job-sheet.js";
import { notesSheet } from "../notes-sheet.js";
import { cell, numberInput } from "../plan-parts.js";
import type { TemplatePlan } from "../sheet-plan.js";
import { tablePlaces } from "../table-block.js";
import { tableSheet } from "../table-sheet.js";
import { type TemplateOptions, USUAL_POINTS } from "../template-options.js";
import { FACE_SWEEP_NOTES } from "./notes.js";
import { AGREEMENT, sweepsTable } from "./sweeps-table.js";

/** How near the sweeps of one face should come, in percent of their mean. Common practice, no source. */
export const AGREE_WITHIN_PERCENT = 5;

/**
 * Faces measured by several timed sweeps each.
 *
 * @param suffix - Put behind every sheet and table name where a workbook holds a second one; "" otherwise
 */
export function faceSweep(suffix: string, { points = USUAL_POINTS["face-sweep"] }: TemplateOptions = {}): TemplatePlan {
  const table = sweepsTable(suffix.trim(), points);
  const range = tablePlaces(table).rangeOf;
  return {
    template: "face-sweep",
    title: "Face sweep",
    description: "Airflow of grilles from several timed sweeps each, and how well the sweeps agree.",
    sheets: [
      jobSheet(),
      tableSheet({
        name: `Face sweep${suffix}`,
        title: "Face sweep",
        lead: "Two or more slow sweeps over the whole grille, each with its time. The average is weighted by time.",
        table,
        sectionsEndAfter: ["design", `V${points}`, `s${points}`, "agreement"],
        above: [
          cell("A5", "Agree", "label"),
          cell("B5", AGREE_WITHIN_PERCENT, "input"),
          cell("C5", "% or less between the highest and the lowest sweep of a grille.", "unitBeside"),
        ],
        aboveValidations: [
          {
            range: "B5",
            ...numberInput("Sweeps agree within", "In percent of their average. 5 % is common practice.", 0, 100),
          },
        ],
        formats: [
          { kind: "word", range: range("agreement"), word: AGREEMENT.agree, style: "within" },
          { kind: "word", range: range("agreement"), word: AGREEMENT.repeat, style: "low" },
          { kind: "word", range: range("agreement"), word: AGREEMENT.once, style: "incomplete" },
          { kind: "word", range: range("basis"), word: "assumed", style: "low" },
        ],
        rowHeights: { [table.headerRow]: 42 },
      }),
      notesSheet(
        `Face sweep notes${suffix}`,
        "How to sweep a grille, what the sheet assumes, and what to be careful about.",
        ...FACE_SWEEP_NOTES,
      ),
    ],
    names: [...JOB_NAMES],
  };
}
