import { type DecimalSign, decimalSign } from "./decimal-sign.js";
import { figure } from "./shown-figure.js";

/** A number as read from what a person typed; null where nothing stands. */
export type TypedNumber = { readonly value: number | null } | { readonly error: string };

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)$/;

const HOW_TO_WRITE: Readonly<Record<DecimalSign, string>> = {
  ".": "Write decimals with a point and thousands without a mark: 1250.5.",
  ",": "Write decimals with a comma and thousands without a mark: 1250,5.",
};

function wanted(minimum: number | null, maximum: number | null): string {
  if (minimum !== null && maximum !== null) return `Enter a number from ${figure(minimum)} to ${figure(maximum)}.`;
  return minimum === null ? "Enter a number." : `Enter a number, ${figure(minimum)} or more.`;
}

/**
 * Reads a number, with a point before its decimals, or with a comma where the workbook writes one. A mark for thousands
 * is refused, since it means different things to people.
 */
export function readTypedNumber(text: string, minimum: number | null, maximum: number | null): TypedNumber {
  const sign = decimalSign();
  const typed = text.trim().replace(/^[−–]/, "-");
  if (typed === "") return { value: null };
  const commas = typed.split(",").length - 1;
  const points = typed.split(".").length - 1;
  // "1.250" may be a thousand where a comma stands before decimals; alone before one, two or more digits it is read.
  const isThousands = sign === "," && points > 0 && (commas > 0 || points > 1 || /\.\d{3}$/.test(typed));
  if (isThousands || commas > (sign === "," ? 1 : 0)) return { error: HOW_TO_WRITE[sign] };
  const plain = typed.replace(",", ".");
  if (!NUMBER.test(plain)) return { error: wanted(minimum, maximum) };
  const value = Number(plain);
  const isOutside = (minimum !== null && value < minimum) || (maximum !== null && value > maximum);
  return isOutside || !Number.isFinite(value) ? { error: wanted(minimum, maximum) } : { value };
}
