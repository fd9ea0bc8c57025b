import type { Scalar } from "./values.js";

const collator = new Intl.Collator("en", { sensitivity: "accent" });

/** Two numbers closer than this, of their size, are the same number to a spreadsheet program, which keeps 15 digits. */
const SAME = 2 ** -48;

export function isSameNumber(one: number, other: number): boolean {
  return one === other || Math.abs(one - other) < Math.abs(one) * SAME;
}

export function isSameText(one: string, other: string): boolean {
  return one === other || (one.length === other.length && one.toLowerCase() === other.toLowerCase());
}

export function compareTexts(one: string, other: string): number {
  return isSameText(one, other) ? 0 : collator.compare(one, other);
}

function rank(value: Scalar): number {
  if (typeof value === "number") return 0;
  return typeof value === "string" ? 1 : 2;
}

/** What a blank is beside another value. */
function beside(blank: Scalar, other: Scalar): Scalar {
  if (blank !== null) return blank;
  if (typeof other === "string") return "";
  return typeof other === "boolean" ? false : 0;
}

/** Returns which of two values comes first: numbers before text before truth values. Neither is an error. */
export function compareScalars(one: Scalar, other: Scalar): number {
  const left = beside(one, other);
  const right = beside(other, one);
  if (typeof left === "number" && typeof right === "number") return isSameNumber(left, right) ? 0 : left - right;
  if (typeof left === "string" && typeof right === "string") return compareTexts(left, right);
  if (typeof left === "boolean" && typeof right === "boolean") return Number(left) - Number(right);
  return rank(left) - rank(right);
}
