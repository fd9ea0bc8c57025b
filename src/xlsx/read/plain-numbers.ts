/** Powers of ten that a number holds exactly: dividing by one of them rounds once, as reading the digits does. */
const POWERS = Array.from({ length: 16 }, (_, power) => 10 ** power);

/** Reads a whole number without sign; -1 for anything else. */
export function wholeNumber(bytes: Uint8Array, start: number, end: number): number {
  if (end === start || end - start > 10) return -1;
  let number = 0;
  for (let index = start; index < end; index += 1) {
    const digit = (bytes[index] as number) - 48;
    if (digit < 0 || digit > 9) return -1;
    number = number * 10 + digit;
  }
  return number;
}

/** Reads a decimal number of up to 15 digits; NaN for anything else, which is then read as text. */
export function decimalNumber(bytes: Uint8Array, start: number, end: number): number {
  const isNegative = bytes[start] === 45;
  let index = isNegative ? start + 1 : start;
  if (end - index > 16 || end === index) return Number.NaN;
  let number = 0;
  let pointAt = -1;
  for (; index < end; index += 1) {
    const byte = bytes[index] as number;
    if (byte === 46 && pointAt < 0) pointAt = index;
    else if (byte >= 48 && byte <= 57) number = number * 10 + byte - 48;
    else return Number.NaN;
  }
  if (pointAt < 0) {
    if (end - start > 15) return Number.NaN;
    return isNegative ? -number : number;
  }
  const decimals = end - pointAt - 1;
  if (decimals === 0 || bytes[start] === 46 || (isNegative && bytes[start + 1] === 46)) return Number.NaN;
  const exact = number / (POWERS[decimals] as number);
  return isNegative ? -exact : exact;
}
