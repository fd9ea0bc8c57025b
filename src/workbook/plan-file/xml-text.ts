/** Escapes a text for an XML element or an attribute in double quotes. */
export function escapedXml(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
}
