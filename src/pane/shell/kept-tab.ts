const KEY = "vanesheet.tab";

/** Returns the tab that was open last, in whatever workbook; an unknown one opens the first. */
export function keptTab(): string {
  try {
    return localStorage.getItem(KEY) ?? "";
  } catch {
    return ""; // Where nothing is kept, the first tab opens.
  }
}

export function keepTab(id: string): void {
  try {
    localStorage.setItem(KEY, id);
  } catch {
    // The store of drafts says that nothing is kept.
  }
}
