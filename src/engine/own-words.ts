/** What the library says in its panels, in this project's words. */
const OWN_WORDS: ReadonlyMap<string, string> = new Map([
  ["Find and Replace", "Find and replace"],
  ["e.g. 'search me'", "Text or number"],
  ["e.g. 'replace me'", "Empty: takes it out"],
  ["Current sheet", "This sheet"],
  ["Specific range", "These cells"],
  ["Match case", "Capitals as typed"],
  ["Match entire cell content", "Whole cells only"],
  ["Search in formulas", "In formulas too"],
  ["ABOUT", "What it does"],
  ["Discard", "Cancel"],
  ["Confirm", "Apply"],
  ["Sort ascending (A ⟶ Z)", "Sort rows, A to Z"],
  ["Sort descending (Z ⟶ A)", "Sort rows, Z to A"],
  [
    "The named range name is invalid. Valid names can contain letters, digits, underscores, and periods. The name cannot be only a number, TRUE, or FALSE.",
    "Begin a name with a letter or _. Letters, digits, _ and . may follow. R, C and addresses are not names.",
  ],
  ["Circular reference", "This formula depends on its own result. Take its own cell out of what it reads."],
  // Where the library failed and not the formula, it would send people to its makers.
  [
    "An unexpected error occurred. Submit a support ticket at odoo.com/help.",
    "The spreadsheet engine cannot calculate this:",
  ],
]);

/** Returns a text of the library as this project says it. */
export function ownWords(text: string): string {
  return OWN_WORDS.get(text) ?? text;
}
