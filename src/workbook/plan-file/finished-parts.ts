import { strFromU8, unzipSync } from "fflate";
import { quotedSheet } from "../template/plan-parts.js";
import type { WorkbookPlan } from "../template/sheet-plan.js";
import { storedFormula } from "../template/stored-formula.js";
import { chartWithLines } from "./chart-with-lines.js";
import { escapedXml } from "./xml-text.js";

/** Of a version that every current Excel trusts: an older one would make it recalculate, to #NAME? without the add-in. */
const CALCULATION = '<calcPr calcId="191029"/>';

/** A result that is an error, which the writer stores as a text. */
const ERROR_AS_TEXT =
  / t="str"([^>]*>(?:<f[^>]*>[^<]*<\/f>|<f[^>]*\/>)<v>#(?:VALUE!|N\/A|DIV\/0!|NUM!|REF!|NAME\?|NULL!)<\/v>)/g;

/** The parts of a package as text, by name. */
export type Parts = Readonly<Record<string, string>>;

/**
 * Adds what the writer lacks: calculated columns of tables, lines across a chart, quoted sheet names in print areas; and
 * takes the order to recalculate on opening away.
 */
export function finishedParts(bytes: Uint8Array, plan: WorkbookPlan): Parts {
  const parts = Object.fromEntries(Object.entries(unzipSync(bytes)).map(([name, data]) => [name, strFromU8(data)]));
  for (const [name, text] of Object.entries(parts)) {
    if (name.startsWith("xl/worksheets/sheet")) parts[name] = text.replaceAll(ERROR_AS_TEXT, ' t="e"$1');
  }
  return withLines(withCalculatedColumns(withWorkbookSettings(parts, plan), plan), plan);
}

/** Replaces a text that must be there, so that a change of the writer is noticed. */
function replaced(part: string, pattern: RegExp | string, replacement: string): string {
  const result = part.replace(pattern, () => replacement);
  if (result === part) throw new Error(`The writer no longer writes ${pattern}.`);
  return result;
}

function partOf(parts: Parts, name: string): string {
  const part = parts[name];
  if (part === undefined) throw new Error(`The writer no longer writes ${name}.`);
  return part;
}

function withWorkbookSettings(parts: Parts, plan: WorkbookPlan): Parts {
  const settings = plan.sheets.reduce(
    (text, { name }) =>
      text
        .replaceAll(`>${escapedXml(name)}!$`, `>${escapedXml(quotedSheet(name))}!$`)
        .replaceAll(`,${escapedXml(name)}!$`, `,${escapedXml(quotedSheet(name))}!$`),
    replaced(partOf(parts, "xl/workbook.xml"), /<calcPr [^>]*\/>/, CALCULATION),
  );
  return { ...parts, "xl/workbook.xml": settings };
}

function withCalculatedColumns(parts: Parts, plan: WorkbookPlan): Parts {
  const tables = plan.sheets.flatMap((sheet) => sheet.tables);
  const finished = tables.map((table, index) => {
    const name = `xl/tables/table${index + 1}.xml`;
    const plain = replaced(partOf(parts, name), / name="TableStyle[^"]*"/, "").replace(
      'showRowStripes="1"',
      'showRowStripes="0"',
    );
    const text = table.columns.reduce((written, column, position) => {
      if (column.formula === null) return written;
      const open = `<tableColumn id="${position + 1}" name="${escapedXml(column.name)}"`;
      const formula = `<calculatedColumnFormula>${escapedXml(storedFormula(column.formula))}</calculatedColumnFormula>`;
      return replaced(written, `${open}/>`, `${open}>${formula}</tableColumn>`);
    }, plain);
    return [name, text] as const;
  });
  return { ...parts, ...Object.fromEntries(finished) };
}

function withLines(parts: Parts, plan: WorkbookPlan): Parts {
  const charts = plan.sheets.flatMap((sheet) => sheet.charts);
  const finished = charts.map((chart, index) => {
    const name = `xl/charts/chart${index + 1}.xml`;
    return [name, chartWithLines(partOf(parts, name), chart)] as const;
  });
  return { ...parts, ...Object.fromEntries(finished) };
}
