import { decimalSign } from "./decimal-sign.js";

/*
 * Every figure of the pane, in the one way that the workbook at hand writes decimals. What is written into the sheet is
 * a number, and the texts of its functions stay as they are.
 */

/** A number with every digit that it has, as it is typed into a field of the pane. */
export function figure(value: number): string {
  return String(value).replace(".", decimalSign());
}

/** A number with so many digits behind its decimal sign, zeros too. */
export function fixedFigure(value: number, decimals: number): string {
  return value.toFixed(decimals).replace(".", decimalSign());
}

/** A number with at most so many digits behind its decimal sign. */
export function shortFigure(value: number, decimals: number): string {
  return figure(Number(value.toFixed(decimals)));
}

/** A number with so many digits in all, without zeros at its end. */
export function preciseFigure(value: number, digits: number): string {
  return figure(Number(value.toPrecision(digits)));
}

/** A number with as many digits as a reading deserves: whole from 100 on, four in all below. */
export function shownNumber(value: number): string {
  return fixedFigure(value, Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2);
}

/**
 * Words that calculation puts together, with their figures as the pane writes them.
 *
 * @param words - Of figures and our own words alone: a name of the job, such as an outlet 2.1, would be changed as well
 */
export function wordsWithFigures(words: string): string {
  return words.replace(/(?<=\d)\.(?=\d)/g, decimalSign());
}
