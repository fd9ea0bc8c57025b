import { DEFAULT_LOCALE, helpers } from "@odoo/o-spreadsheet";
import { engineSpelling } from "./engine-spelling.js";

/** What is put into a cell; null empties it, and a text that begins with "=" is a formula. */
export type GivenContent = number | string | boolean | null;

/** Says whether the engine would take a text for a number, a date, a truth value or an error. */
function looksLikeValue(text: string): boolean {
  const isTyped = helpers.isNumber(text, DEFAULT_LOCALE) || helpers.isDateTime(text, DEFAULT_LOCALE);
  return isTyped || /^(?:true|false|'.*|#.*)$/is.test(text.trim());
}

/** Returns a cell's content as it would be typed; an apostrophe keeps a text that looks like a number a text. */
export function typedContent(content: GivenContent): string {
  if (content === null || content === "") return "";
  if (typeof content === "boolean") return String(content).toUpperCase();
  if (typeof content === "number") return String(content);
  if (content.startsWith("=") && content.length > 1) return engineSpelling(content);
  return looksLikeValue(content) ? `'${content}` : content;
}
