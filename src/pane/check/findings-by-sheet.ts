import type { Finding } from "../../workbook/index.js";

/** The findings of one sheet, in the order of its cells. */
export interface SheetFindings {
  readonly sheet: string;
  readonly findings: readonly Finding[];
}

/** Groups findings by sheet, in the order in which the sheets first come. */
export function findingsBySheet(findings: readonly Finding[]): readonly SheetFindings[] {
  const sheets = [...new Set(findings.map(({ sheet }) => sheet))];
  return sheets.map((sheet) => ({ sheet, findings: findings.filter((finding) => finding.sheet === sheet) }));
}

function counted(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? "" : "s"}`;
}

/** Says how many findings of either severity there are: `2 errors, 1 warning`. */
export function findingCounts(findings: readonly Finding[]): string {
  const errors = findings.filter(({ severity }) => severity === "error").length;
  const warnings = findings.length - errors;
  const parts = [errors > 0 ? counted(errors, "error") : "", warnings > 0 ? counted(warnings, "warning") : ""];
  return parts.filter((part) => part !== "").join(", ");
}
