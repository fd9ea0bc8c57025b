/** A number as read from what a person typed; null where nothing stands. */
export type TypedNumber = { readonly value: number | null } | { readonly error: string };

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)$/;

function wanted(minimum: number | null, maximum: number | null): string {
  if (minimum !== null && maximum !== null) return `Enter a number from ${minimum} to ${maximum}.`;
  return minimum === null ? "Enter a number." : `Enter a number, ${minimum} or more.`;
}

/** Reads a number with a point before its decimals; a comma is refused, since it means different things to people. */
export function readTypedNumber(text: string, minimum: number | null, maximum: number | null): TypedNumber {
  const typed = text.trim().replace(/^[−–]/, "-");
  if (typed === "") return { value: null };
  if (typed.includes(",")) return { error: "Write decimals with a point and thousands without a mark: 1250.5." };
  if (!NUMBER.test(typed)) return { error: wanted(minimum, maximum) };
  const value = Number(typed);
  const isOutside = (minimum !== null && value < minimum) || (maximum !== null && value > maximum);
  return isOutside || !Number.isFinite(value) ? { error: wanted(minimum, maximum) } : { value };
}
