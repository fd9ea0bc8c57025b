import { placeOf, readOptionalPart } from "../package/read-part.js";
import type { Workbook } from "../workbook.js";
import { readThemeColors } from "./colors.js";

/** Returns the colours of a workbook's theme in the order in which styles number them; none where it has no theme. */
export function themeColorsOf({ archive, relationships }: Workbook): readonly string[] {
  const part = relationships.find(({ kind, isExternal }) => kind === "theme" && !isExternal)?.target;
  const theme = part === undefined ? undefined : readOptionalPart(archive, part);
  return theme === undefined || part === undefined ? [] : readThemeColors(theme, placeOf(archive, part));
}
