import { quotedSheet } from "../plan-parts.js";

/** Fixed cells over the table of a re-test. */
export const RETEST_CELLS = {
  share: "$C$5",
  seed: "$C$6",
  within: "$C$7",
  measured: "$C$8",
  wanted: "$C$9",
  result: "$C$10",
  unjudged: "$C$11",
} as const;

/** Spells the cell of the seed from another sheet. */
export function seedCell(sheet: string): string {
  return `${quotedSheet(sheet)}!${RETEST_CELLS.seed}`;
}

/** Products of whole numbers below it stay exact. */
const MODULUS = 46_337;

/** Letters of a tag that count, from its beginning and from its end: those of all usual tags. */
const FROM_BEGINNING = 12;
const FROM_END = 4;

/** Powers of 31, so that no two places of a letter count alike. */
const WEIGHTS = Array.from({ length: FROM_BEGINNING + FROM_END }).reduce<readonly number[]>(
  (weights) => [...weights, ((weights.at(-1) ?? 1) * 31) % MODULUS],
  [],
);

/** A whole number of a tag, letter by letter: not every program goes through a text within SUMPRODUCT. */
function numberOfTag(tag: string): string {
  const beginning = (index: number) => `MID(${tag}&"${" ".repeat(FROM_BEGINNING)}",${index + 1},1)`;
  const end = (index: number) => `LEFT(RIGHT("${" ".repeat(FROM_END)}"&${tag},${index - FROM_BEGINNING + 1}),1)`;
  const letters = WEIGHTS.map((weight, index) => {
    return `UNICODE(${index < FROM_BEGINNING ? beginning(index) : end(index)})*${weight}`;
  });
  return `MOD(${letters.join("+")},${MODULUS})`;
}

/**
 * The draw of an outlet: a number that hangs on the seed and the tag alone, so that whoever types the same seed draws the
 * same outlets, wherever they are in the list. The lowest are read again. Empty for what was not measured, or has no tag.
 *
 * @param tag - The cell of the outlet's tag
 */
export function drawOf(tag: string, airflow: string, seed: string): string {
  const first = `MOD(${seed}*7919+${numberOfTag(tag)}*104729,${MODULUS})`;
  const second = `MOD((${first}+1)^2*31+${seed}*6151,${MODULUS})`;
  // The row parts outlets of one tag, and tags that have the same number by chance.
  return `=IF(OR(COUNT(${airflow})=0,COUNT(${seed})=0,${tag}=""),"",MOD(${second}^2+${seed},${MODULUS})+ROW()/1000000)`;
}
