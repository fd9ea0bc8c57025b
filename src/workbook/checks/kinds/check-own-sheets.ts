import { scanFormula } from "../../../xlsx/index.js";
import { traversesOn } from "../../lists/index.js";
import { type ProposedList, proposeColumns } from "../../takeover/propose-columns.js";
import { callsVane, type PlacedFormula, type WorkbookIndex } from "../formulas/workbook-index.js";
import { retestTables, sheetsOfSums } from "../listed/name-tables.js";
import { type Draft, grouped, oneCell } from "../support/draft.js";
import { LEAST_LIKE_FORMULAS } from "../thresholds.js";

const WHAT_TO_DO =
  "Say what its columns hold, in the pane under Start, Your own sheet, or with vanesheet columns FILE; then check again.";

function unknownList(index: WorkbookIndex, { sheet, headerRow, columns }: ProposedList): Draft {
  const known = columns.filter(({ content }) => content !== null);
  const shown = known.slice(0, 6).map(({ heading }) => `“${heading}”`);
  return {
    kind: "columns-not-known",
    severity: "warning",
    sheet: index.sheets.findIndex(({ name }) => name === sheet),
    range: oneCell(headerRow, known[0]?.column ?? 1),
    problem: `Row ${headerRow} looks like the headings of a list of outlets (${shown.join(", ")}${known.length > 6 ? ", …" : ""}), but nothing says what its columns hold: none of its airflows is checked against its readings, and none counts in a roll-up.`,
    action: WHAT_TO_DO,
  };
}

/** Whether a formula works an airflow out without a function of ours: an average times an area, or in² made into ft². */
function looksLikeAirflow(formula: PlacedFormula): boolean {
  if (callsVane(formula)) return false;
  const pieces = scanFormula(formula.text).filter(({ text }) => text.trim() !== "");
  const hasProduct = pieces.some(({ text }) => text === "*");
  const dividesBy144 = pieces.some(({ text }, at) => text === "144" && pieces[at - 1]?.text === "/");
  const averages = pieces.some(({ text }, at) => /^AVERAGE$/i.test(text) && pieces[at + 1]?.text === "(");
  return hasProduct && (dividesBy144 || averages);
}

/** Sheets that work airflows out and are no list that is known: what they hold goes unchecked, which has to be said. */
export function checkOwnSheets(index: WorkbookIndex): readonly Draft[] {
  const { workbook, lists, sheets } = index;
  const known = new Set([
    ...lists.value.map(({ sheet }) => sheet),
    ...lists.findings.map(({ sheet }) => sheet),
    ...traversesOn(sheets).map(({ sheet }) => sheet),
    ...[...sheetsOfSums(index), ...retestTables(index).map(({ sheet }) => sheet)].map(
      (sheet) => sheets[sheet]?.name ?? "",
    ),
  ]);
  const isVane = new Set(index.formulas.filter(callsVane).map(({ sheet }) => sheets[sheet]?.name));
  const isOpen = ({ sheet }: { readonly sheet: string }) => !known.has(sheet) && !isVane.has(sheet);
  const open = sheets.filter(({ name }) => isOpen({ sheet: name }));
  const proposed = proposeColumns({ sheets: open, names: workbook.names });
  const told = new Set(proposed.map(({ sheet }) => sheet));
  const airflows = index.formulas.filter(
    (formula) => isOpen({ sheet: sheets[formula.sheet]?.name ?? "" }) && looksLikeAirflow(formula),
  );
  const others = [...grouped(airflows, ({ sheet }) => sheet)].flatMap(([sheet, formulas]): readonly Draft[] => {
    const [first] = formulas;
    if (first === undefined || told.has(sheets[sheet]?.name ?? "") || formulas.length < LEAST_LIKE_FORMULAS) return [];
    return [
      {
        kind: "columns-not-known",
        severity: "warning",
        sheet,
        range: oneCell(first.row, first.column),
        problem: `${formulas.length} formulas of this sheet seem to work out airflows, but no list of outlets is known here: they are not checked against their readings.`,
        action: WHAT_TO_DO,
      },
    ];
  });
  return [...proposed.map((list) => unknownList(index, list)), ...others];
}
