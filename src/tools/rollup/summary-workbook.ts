import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { JOB_NAMES } from "../../workbook/index.js";
import { escapedXml } from "../../workbook/plan-file/index.js";
import { columnLetters } from "../../xlsx/index.js";

/** What a generated cell holds; null is an empty cell, and a formula without a result stores none. */
export type MadeContent = number | string | null | { readonly error: string } | { readonly formula: string };

/** One row of a job summary, every column of it: results too, so that they may be wrong. */
export type MadeRow = readonly MadeContent[];

export interface MadeJob {
  /** Entries on the sheet of job details, by the name of the cell. */
  readonly details: Readonly<Record<string, number | string>>;
  readonly rows: readonly MadeRow[];
}

const FIRST_ROW = 10;
const ROW_PATTERN = new RegExp(`<row r="${FIRST_ROW}"[^>]*>(.*?)</row>`, "s");
const CELL_PATTERN = /<c r="([A-Z]+)\d+"((?: [a-z]+="[^"]*")*)(?:\/>|>(.*?)<\/c>)/g;

/** Makes job workbooks that look as if somebody had filled and saved the job summary template. */
export function makeSummaryWriter(template: Uint8Array): (job: MadeJob) => Uint8Array {
  const parts = unzipSync(template);
  const text = (name: string) => strFromU8(parts[name] ?? new Uint8Array());
  const sheet = text("xl/worksheets/sheet2.xml");
  const pattern = [...(ROW_PATTERN.exec(sheet)?.[1] ?? "").matchAll(CELL_PATTERN)].map(
    ([, , attributes = "", inner = ""]) => ({
      style: / s="(\d+)"/.exec(attributes)?.[1] ?? "0",
      formula: /<f>(.*?)<\/f>/s.exec(inner)?.[1],
    }),
  );
  if (pattern.length === 0) throw new Error("The job summary template no longer has the rows that were expected.");
  const head = sheet.slice(0, sheet.indexOf(`<row r="${FIRST_ROW}"`));
  const tail = sheet.slice(sheet.indexOf("</sheetData>"));
  const knownStrings = [...text("xl/sharedStrings.xml").matchAll(/<si>(.*?)<\/si>/gs)].map(([, inner = ""]) => inner);

  return ({ details, rows }) => {
    const strings = [...knownStrings];
    const places = new Map<string, number>();
    const shared = (content: string): number => {
      const known = places.get(content);
      if (known !== undefined) return known;
      places.set(content, strings.length);
      return strings.push(`<t xml:space="preserve">${escapedXml(content)}</t>`) - 1;
    };
    const cell = (row: number, column: number, content: MadeContent): string => {
      const { style, formula } = pattern[column] ?? { style: "0", formula: undefined };
      const f = formula === undefined ? "" : `<f>${formula.replaceAll(/([A-Z]+)10\b/g, `$1${row}`)}</f>`;
      const open = `<c r="${columnLetters(column + 1)}${row}" s="${style}"`;
      if (content === null) return f === "" ? `${open}/>` : `${open} t="str">${f}<v></v></c>`;
      if (typeof content === "number") return `${open}>${f}<v>${content}</v></c>`;
      if (typeof content === "string")
        return f === ""
          ? `${open} t="s"><v>${shared(content)}</v></c>`
          : `${open} t="str">${f}<v>${escapedXml(content)}</v></c>`;
      if ("error" in content) return `${open} t="e">${f}<v>${content.error}</v></c>`;
      return `${open}><f>${escapedXml(content.formula)}</f></c>`;
    };
    const lastRow = FIRST_ROW + rows.length - 1;
    const body = rows.map((row, index) => {
      const number = FIRST_ROW + index;
      return `<row r="${number}">${row.map((content, column) => cell(number, column, content)).join("")}</row>`;
    });
    const jobSheet = Object.entries(details).reduce((xml, [name, content]) => {
      const address = (JOB_NAMES.find((known) => known.name === name)?.refersTo ?? "")
        .replace("Job!", "")
        .replaceAll("$", "");
      const found = new RegExp(`<c r="${address}"(?: t="s")? s="(\\d+)"(?:/>|>.*?</c>)`).exec(xml);
      if (address === "" || found === null) throw new Error(`There is no job detail ${name}.`);
      const value = typeof content === "number" ? `><v>${content}</v></c>` : ` t="s"><v>${shared(content)}</v></c>`;
      return xml.replace(found[0], () => `<c r="${address}" s="${found[1]}"${value}`);
    }, text("xl/worksheets/sheet1.xml"));
    const stretched = (xml: string) => xml.replaceAll(/([A-Z]+)69\b/g, `$1${lastRow}`);
    return zipSync({
      ...parts,
      "xl/worksheets/sheet1.xml": strToU8(jobSheet),
      "xl/worksheets/sheet2.xml": strToU8(stretched(head) + body.join("") + stretched(tail)),
      "xl/tables/table1.xml": strToU8(stretched(text("xl/tables/table1.xml"))),
      "xl/sharedStrings.xml": strToU8(
        `<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">${strings.map((inner) => `<si>${inner}</si>`).join("")}</sst>`,
      ),
    });
  };
}
