import type { WorkingInput, WorkingStep, WorkingUnit } from "./workings.js";

/** A longer list of readings is cut off here, with its count. */
const READINGS_SHOWN = 12;

const DIGITS_SHOWN = 6;

/**
 * Returns the numbers that a step starts from, as a person would write them beside the formula.
 *
 * @param step - A step of workings
 * @returns Text such as "V = 400 fpm, Af = 0.375 ft2"; six digits, a long list of readings cut off with its count
 * @source No source: a form of display
 * @example
 * stepNumbers({
 *   title: "Face area",
 *   symbol: "A",
 *   expression: "w * h",
 *   inputs: [
 *     { name: "Width", symbol: "w", value: 24, unit: "in" },
 *     { name: "Height", symbol: "h", value: 12, unit: "in" },
 *   ],
 *   result: 2,
 *   unit: "ft2",
 *   source: "Plane geometry",
 *   assumed: null,
 * }) // => "w = 24 in, h = 12 in"
 */
export function stepNumbers(step: WorkingStep): string {
  return step.inputs.map(inputText).join(", ");
}

function inputText({ symbol, value, unit }: WorkingInput): string {
  if (typeof value === "number") return `${symbol} = ${shortest(value)}${unitText(unit)}`;
  const shown = value.slice(0, READINGS_SHOWN).map(shortest).join("; ");
  const rest = value.length > READINGS_SHOWN ? `; … ${value.length} in all` : "";
  return `${symbol} = [${shown}${rest}]${unitText(unit)}`;
}

function shortest(value: number): string {
  return String(Number(value.toPrecision(DIGITS_SHOWN)));
}

function unitText(unit: WorkingUnit): string {
  return unit === "ratio" ? "" : ` ${unit}`;
}
