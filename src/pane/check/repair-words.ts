import type { RepairOutcome, RepairPlan } from "../../workbook/index.js";

function formulas(count: number): string {
  return count === 1 ? "1 formula" : `${count} formulas`;
}

function quoted(names: readonly string[]): string {
  return names.map((name) => `“${name}”`).join(", ");
}

/** Says what a repair would do, for the person to agree to. */
export function planWords({ count, sheets, unknown }: RepairPlan): readonly string[] {
  const guarded = sheets.filter(({ isProtected }) => isProtected).map(({ sheet }) => sheet);
  return [
    count === 0
      ? "No formula is to be entered again."
      : `${formulas(count)} on ${quoted(sheets.map(({ sheet }) => sheet))} will be entered again unchanged. No other cell is touched.`,
    guarded.length === 0
      ? ""
      : `${quoted(guarded)} ${guarded.length === 1 ? "is" : "are"} protected: the protection is lifted for a moment and put back as it was.`,
    ...unknown.map(
      ({ sheet, address, functionName }) =>
        `${sheet}!${address} asks for ${functionName}, which this version does not have. It stays as it is.`,
    ),
  ].filter((sentence) => sentence !== "");
}

/** Says what a repair did. */
export function outcomeWords({ repaired, unrepaired }: RepairOutcome): string {
  const done = repaired === 0 ? "No formula was entered again." : `${formulas(repaired)} entered again.`;
  return [done, ...unrepaired.map(({ message }) => message)].join(" ");
}
