/**
 * Characters that a terminal obeys instead of showing: control characters but for tab and new line, and those that turn
 * the direction of writing. A name in a file could move the cursor with them, or make a line read otherwise than it is.
 */
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const OBEYED = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g;

const escaped = (character: string) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`;

/** Spells out the characters that a terminal would obey: `\u001b`, as JSON does too. */
export function shownControls(text: string): string {
  return text.replace(OBEYED, escaped);
}

/** The same for a name or a field that has to stay on its line. */
export function onOneLine(text: string): string {
  return shownControls(text).replaceAll("\n", "\\n").replaceAll("\t", "\\t");
}
