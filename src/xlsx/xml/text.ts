/** Writes text between tags or into an attribute. */
export function escapeXml(text: string): string {
  if (!/[&<>"\r\n\t]/.test(text)) return text;
  return text.replace(/[&<>"\r\n\t]/g, (letter) => {
    if (letter === "&") return "&amp;";
    if (letter === "<") return "&lt;";
    if (letter === ">") return "&gt;";
    if (letter === '"') return "&quot;";
    return letter === "\n" ? letter : `&#${letter.charCodeAt(0)};`;
  });
}

/** Writes text between tags as most programs do: quotes stay as they are. */
export function escapeText(text: string): string {
  return escapeXml(text).replaceAll("&quot;", '"');
}

/**
 * Reads the escapes by which a workbook spells characters that XML cannot hold: _x000D_ is a carriage return.
 *
 * @source ECMA-376-1:2016, section 22.9.2.19 (ST_Xstring)
 */
export function decodeXstring(text: string): string {
  if (!text.includes("_x")) return text;
  return text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
}

/**
 * Spells text for a cell: characters that XML cannot hold, and text that looks like such an escape, are escaped.
 *
 * @source ECMA-376-1:2016, section 22.9.2.19 (ST_Xstring)
 */
export function encodeXstring(text: string): string {
  const escaped = text.replace(/_(?=x[0-9A-Fa-f]{4}_)/g, "_x005F_");
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  return escaped.replace(/[\u0000-\u0008\u000b\u000c\u000d-\u001f\ufffe\uffff]/g, (letter) => {
    return `_x${letter.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`;
  });
}
