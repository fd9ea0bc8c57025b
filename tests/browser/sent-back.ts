/** What went back to Excel for one call, read from the message that carried it. */
export type SentBack =
  | { readonly kind: "result"; readonly value: unknown }
  | { readonly kind: "error"; readonly code: string; readonly message: string };

/** The numbers by which office.js tells Excel the code of a thrown error. */
const CODES: Readonly<Record<number, string>> = {
  1: "#N/A",
  2: "#NAME?",
  5: "#DIV/0!",
  6: "#NUM!",
  7: "#VALUE!",
  8: "#NULL!",
};

/** Reads `[id, succeeded, value or message, code?, …]`. */
export function readSentBack(entry: unknown): SentBack {
  const [, succeeded, value, code] = entry as readonly [number, boolean, unknown, number];
  if (succeeded) return { kind: "result", value };
  return { kind: "error", code: CODES[code] ?? `code ${code}`, message: String(value) };
}

/** The cells of a result, one by one. */
export function cellsOf(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value.flat() : [value];
}

export interface SentError {
  readonly valueType: string;
  readonly code: string;
  readonly message?: string;
}

export function isSentError(cell: unknown): cell is SentError {
  return typeof cell === "object" && cell !== null && (cell as SentError).valueType === "CustomFunctionError";
}
