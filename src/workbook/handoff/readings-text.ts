import { EMPTY, isOmitted, part, WRONG } from "./formula-text.js";

/** What a plain formula knows of a block of readings. */
export interface ReadingsText {
  readonly block: string;
  /** How many count, true zeros with them. */
  readonly count: string;
  readonly mean: string;
}

/** How many cells of a block hold a number other than 0. */
export function nonZeroCount(block: string): string {
  return `SUMPRODUCT(--ISNUMBER(${block}),--(${part(block)}<>0))`;
}

/** True where a block holds text that is not empty, or a truth value. */
export function holdsText(block: string): string {
  return `SUMPRODUCT(--(LEN(${block})>0))>COUNT(${block})`;
}

function cellCount(block: string, isBlock: boolean): string {
  return isBlock ? `ROWS(${block})*COLUMNS(${block})` : "1";
}

function sameCells(taken: string, block: string): boolean {
  const plain = (text: string) => text.replaceAll(/[\s$]/g, "").toUpperCase();
  return plain(taken) === plain(`COUNT(${block})`);
}

/** Whether a COUNT fits the block: between the readings that are not 0 and those with the zeros and blanks. */
function fits(taken: string, block: string, isBlock: boolean): string {
  const most = `${cellCount(block, isBlock)}-SUMPRODUCT(--ISTEXT(${block}))`;
  return `AND(ISNUMBER(${taken}),${part(taken)}>=${nonZeroCount(block)},${part(taken)}<=${most},${part(taken)}=INT(${part(taken)}))`;
}

/**
 * A result from a block of readings, blanks left out and zeros counted as `taken` says; empty where nothing was read.
 *
 * @param isBlock - Whether the argument is a block of cells and not one value
 */
export function overReadings(
  block: string,
  isBlock: boolean,
  taken: string,
  result: (readings: ReadingsText) => string,
): string {
  if (isOmitted(taken)) {
    const count = nonZeroCount(block);
    const undecided = `${count}<${cellCount(block, isBlock)}-SUMPRODUCT(--ISTEXT(${block}))`;
    const whole = result({ block, count, mean: `SUM(${block})/${count}` });
    return `IF(${holdsText(block)},${WRONG},IF(${count}=0,${EMPTY},IF(${undecided},${WRONG},${whole})))`;
  }
  const count = part(taken);
  const counted = `IF(${count}=0,${EMPTY},${result({ block, count, mean: `SUM(${block})/${count}` })})`;
  const checked = sameCells(taken, block) ? counted : `IF(${fits(taken, block, isBlock)},${counted},${WRONG})`;
  return `IF(${holdsText(block)},${WRONG},${checked})`;
}
