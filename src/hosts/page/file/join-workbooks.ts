import type { WorkbookConversion } from "../../../engine/index.js";
import type { ExportedSheet, ExportedWorkbook } from "./engine-export.js";

type Numbered = Readonly<Record<string, number>>;
type List = "styles" | "formats" | "borders";
const LISTS: readonly List[] = ["styles", "formats", "borders"];

/** Gives the sheets of a workbook other ids. */
export function withSheetIds(
  { data, words, drawings, protectedSheetIds, activeSheetId, ...rest }: WorkbookConversion,
  idFor: (id: string, name: string) => string,
): WorkbookConversion {
  const workbook = data as ExportedWorkbook;
  const ids = new Map(workbook.sheets.map(({ id, name }) => [id, idFor(id, name)]));
  const changed = (id: string): string => ids.get(id) ?? id;
  // A figure is named after its sheet.
  const figureIds = new Map(
    workbook.sheets.flatMap(({ id, figures }) =>
      (figures as readonly { readonly id: string }[]).map((figure) => [
        figure.id,
        `${changed(id)}${figure.id.slice(id.length)}`,
      ]),
    ),
  );
  const figureId = (id: string): string => figureIds.get(id) ?? id;
  const renamed = (sheet: ExportedSheet) => ({
    ...sheet,
    id: changed(sheet.id),
    figures: (sheet["figures"] as readonly { readonly id: string }[]).map((figure) => ({
      ...figure,
      id: figureId(figure.id),
    })),
  });
  return {
    data: { ...workbook, sheets: workbook.sheets.map(renamed) },
    words: Object.fromEntries(Object.entries(words).map(([id, rules]) => [changed(id), rules])),
    protectedSheetIds: protectedSheetIds.map(changed),
    activeSheetId: activeSheetId === undefined ? undefined : changed(activeSheetId),
    drawings: Object.fromEntries(Object.entries(drawings).map(([id, drawing]) => [figureId(id), drawing])),
    ...rest,
  };
}

/** Puts sheets of another workbook behind those of one, with their looks and names. */
export function addSheets(
  one: ExportedWorkbook,
  other: ExportedWorkbook,
  isAdded: (sheet: ExportedSheet) => boolean,
): ExportedWorkbook {
  const offsets = Object.fromEntries(
    LISTS.map((list) => [list, Math.max(0, ...Object.keys(one[list] ?? {}).map(Number))]),
  ) as Record<List, number>;
  const moved = (zones: Numbered, list: List): Numbered =>
    Object.fromEntries(Object.entries(zones).map(([range, number]) => [range, number + offsets[list]]));
  const added = other.sheets.filter(isAdded).map((sheet) => ({
    ...sheet,
    ...Object.fromEntries(LISTS.map((list) => [list, moved((sheet[list] ?? {}) as Numbered, list)])),
  }));
  const lists = Object.fromEntries(
    LISTS.map((list) => {
      const behind = Object.entries(other[list] ?? {}).map(([number, look]) => [Number(number) + offsets[list], look]);
      return [list, { ...one[list], ...Object.fromEntries(behind) }];
    }),
  );
  return {
    ...one,
    ...lists,
    sheets: [...one.sheets, ...added],
    namedRanges: { ...other.namedRanges, ...one.namedRanges },
  };
}
