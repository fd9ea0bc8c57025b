import { median } from "../../../core/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import { type Draft, oneCell, shownNumber } from "../support/draft.js";
import { numbersIn, readingBlocks, typedSource } from "../support/readings.js";
import { LEAST_READINGS_WITH_A_SIGN, OTHER_SIGN_TO_OTHERS_RATIO } from "../thresholds.js";

/** A single reading of the other sign among equals: air does not turn round at one point and keep its speed. */
export function checkSigns(index: WorkbookIndex): readonly Draft[] {
  return readingBlocks(index).flatMap(({ block }): readonly Draft[] => {
    const cells = numbersIn(index, block).filter(({ value }) => value !== 0);
    if (cells.length < LEAST_READINGS_WITH_A_SIGN) return [];
    const negative = cells.filter(({ value }) => value < 0);
    const positive = cells.filter(({ value }) => value > 0);
    const [odd, others] = negative.length === 1 ? [negative[0], positive] : [positive[0], negative];
    if (odd === undefined || others.length !== cells.length - 1) return [];
    const usual = Math.abs(median(others.map(({ value }) => value)));
    if (Math.abs(odd.value) < OTHER_SIGN_TO_OTHERS_RATIO * usual) return [];
    const { sheet, row, column } = typedSource(index, block.sheet, odd);
    const sign = odd.value < 0 ? "negative" : "positive";
    return [
      {
        kind: "reading-of-other-sign",
        severity: "warning",
        sheet,
        range: oneCell(row, column),
        problem: `${shownNumber(odd.value)} is ${sign} and nearly as large as the others, which are not: it takes as much from the average.`,
        action:
          "Read that point again. Correct the sign if it was a slip; if the air does flow the other way there, choose another traverse location.",
      },
    ];
  });
}
