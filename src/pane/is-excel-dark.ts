/** Half of full brightness; a ground below it is dark. */
const HALF = 0.5;

/** How bright a colour is, from 0 to 1; null for what is none. */
function brightness(colour: string | undefined): number | null {
  const parts = /^#?([\da-f]{2})([\da-f]{2})([\da-f]{2})$/i.exec(colour ?? "")?.slice(1);
  if (parts === undefined) return null;
  const [red = 0, green = 0, blue = 0] = parts.map((part) => Number.parseInt(part, 16) / 255);
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Whether Excel itself is dark, by its word or by its ground; null where it tells neither. */
export function isExcelDark(): boolean | null {
  try {
    const theme = Office.context.officeTheme;
    if (typeof theme?.isDarkTheme === "boolean") return theme.isDarkTheme;
    const ground = brightness(theme?.bodyBackgroundColor);
    return ground === null ? null : ground < HALF;
  } catch {
    return null; // Some hosts throw instead of having no theme.
  }
}
