import type { BlockText } from "./block-text.js";
import { allOf, EMPTY, isOmitted, part, WRONG } from "./formula-text.js";
import type { CallArguments } from "./translation.js";

/** What a plain formula knows of a block of readings. */
export interface ReadingsText {
  /** How many count, true zeros with them. */
  readonly count: string;
  readonly mean: string;
}

/** Whether a COUNT fits the block: between the readings that are not 0 and those with the zeros and blanks. */
function fits(taken: string, { nonZero, countable }: BlockText): string {
  const t = part(taken);
  return allOf([`ISNUMBER(${taken})`, `${t}>=${nonZero}`, `${t}<=${countable}`, `${t}=INT(${t})`]);
}

/**
 * A result from a block of readings, blanks left out and zeros counted as `taken` says; empty where nothing was read.
 *
 * @param call - The call, whose argument `taken` says how many cells were read
 * @param block - Its readings
 */
export function overReadings(
  call: CallArguments,
  block: BlockText,
  result: (readings: ReadingsText) => string,
): string {
  const { sum, nonZero, holdsText } = block;
  // Where a cell is in error, the sum passes its error on.
  const wrong = `${sum}+${WRONG}`;
  if (isOmitted(call.text("taken"))) {
    const count = part(nonZero);
    const undecided = `${count}<${block.countable}`;
    const whole = result({ count, mean: `${sum}/${count}` });
    return `IF(${holdsText},${wrong},IF(${count}=0,${EMPTY},IF(${undecided},${WRONG},${whole})))`;
  }
  const isCount = call.isCountOf("taken", block);
  const count = part(isCount ? block.count : call.text("taken"));
  const counted = `IF(${count}=0,${EMPTY},${result({ count, mean: `${sum}/${count}` })})`;
  const checked = isCount ? counted : `IF(${fits(call.text("taken"), block)},${counted},${WRONG})`;
  return `IF(${holdsText},${wrong},${checked})`;
}
