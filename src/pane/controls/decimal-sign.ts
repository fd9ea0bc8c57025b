/** What stands before decimals. */
export type DecimalSign = "." | ",";

let current: DecimalSign = ".";

/** Sets how the workbook at hand writes decimals; what is typed in the pane is read in the same way. */
export function setDecimalSign(sign: DecimalSign): void {
  current = sign;
}

export function decimalSign(): DecimalSign {
  return current;
}

/** Returns a typed text with a point before its decimals, as sizes are read. */
export function withPoints(text: string): string {
  return current === "," ? text.replace(/(\d),(\d)/g, "$1.$2") : text;
}
