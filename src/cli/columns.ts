import { basename } from "node:path";
import { openWorkbookFile, type WorkbookFile } from "../hosts/file/index.js";
import { findWorkbooks } from "../hosts/file/rollup/find-workbooks.js";
import {
  type Agreement,
  type Answer,
  agreementOf,
  type ColumnMapping,
  contentWord,
  fileSource,
  findLists,
  fitWorkbook,
  MAPPED_UNITS,
  mappingEdits,
  mappingOf,
  mappingsIn,
  mergedMappings,
  type ProposedList,
  proposeColumns,
  readAnswer,
  sentencesOf,
  type WorkbookSource,
  withAnswers,
} from "../workbook/index.js";
import { columnLetters, formatAddress, HostError, patchWorkbook } from "../xlsx/index.js";
import {
  type Arguments,
  type Command,
  EXIT,
  type ExitStatus,
  onePositional,
  textOption,
  UsageError,
} from "./command.js";
import { OUTPUT_OPTIONS, type OutputFile, openToChange, saveChanged, workbookOutput } from "./output-file.js";
import { onOneLine } from "./shown-controls.js";
import { widest } from "./widest.js";
import { counted } from "./workbook-report.js";

/** A list as it is taken, and how far the airflows of the sheet follow from that. */
interface Looked extends ProposedList {
  readonly agreement: Agreement;
}

/** What was said of one workbook and what became of it. */
interface Said {
  readonly lists: readonly Looked[];
  /** Lists that are read already, by their headings. */
  readonly known: readonly string[];
  /** The file that keeps it; null where nothing was written. */
  readonly saved: string | null;
}

function answersOf({ options }: Arguments): readonly Answer[] {
  const given = options["set"];
  const said = Array.isArray(given) ? given : typeof given === "string" ? [given] : [];
  try {
    return said
      .flatMap((one) => String(one).split(";"))
      .filter((one) => one.trim() !== "")
      .map(readAnswer);
  } catch (cause) {
    if (cause instanceof HostError) throw new UsageError(cause.message);
    throw cause;
  }
}

function headingRowOf(args: Arguments): number | null {
  const given = textOption(args, "heading-row");
  if (given === null) return null;
  const row = Number(given);
  if (Number.isInteger(row) && row >= 1 && row <= 1_048_576) return row;
  throw new UsageError(`--heading-row takes the number of the last row of headings, not “${given}”.`);
}

/** Lists of a workbook that nobody has to be asked about: their headings are known. */
function knownByHeadings({ sheets }: WorkbookSource) {
  return findLists({ sheets, names: [] }).value;
}

function proposalsFor(args: Arguments, source: WorkbookSource, path: string): Pick<Said, "lists" | "known"> {
  const [sheet, headerRow] = [textOption(args, "sheet"), headingRowOf(args)];
  if (sheet !== null && !source.sheets.some(({ name }) => name.toLowerCase() === sheet.toLowerCase())) {
    const names = source.sheets.map(({ name }) => `“${name}”`).join(", ");
    throw new UsageError(`${path} has no sheet “${sheet}”, only ${names}.`);
  }
  if (headerRow !== null && sheet === null) throw new UsageError("--heading-row goes with --sheet.");
  const known = sheet === null ? knownByHeadings(source) : [];
  const isKnown = (list: ProposedList) =>
    known.some((one) => one.sheet === list.sheet && list.headerRow >= one.headerRow && list.headerRow <= one.lastRow);
  const answers = answersOf(args);
  return {
    lists: proposeColumns(source, { sheet, headerRow })
      .filter((list) => !isKnown(list))
      .map((list) => withAnswers(list, answers))
      .map((list) => ({ ...list, agreement: agreementOf(source, list) })),
    known: known.map((one) => `${one.sheet}, row ${one.headerRow}`),
  };
}

function questionsOf({ columns, missing, sheet, agreement }: Looked): readonly string[] {
  const asked = columns.filter(({ question }) => question !== "");
  return [
    ...asked.map(({ column, heading, question, content }) => {
      const letters = columnLetters(column);
      const guess = content === null ? "" : contentWord(content);
      const named = heading === "" ? "" : ` (${heading})`;
      return `${sheet}, column ${letters}${named}: ${question} Say --set "${letters}=${guess}…", or --set "${letters}=nothing".`;
    }),
    ...missing.map((sentence) => `${sheet}: ${sentence}`),
    ...(agreement.isDoubtful ? [`${sheet}: ${agreement.sentence}`] : []),
  ];
}

function printList(list: Looked, lists: readonly Looked[]): void {
  const rows = list.columns.map(({ column, heading, content, unit, reason, question }) => [
    `${question === "" ? " " : "?"} ${columnLetters(column)}`,
    heading === "" ? "–" : heading,
    content === null ? "–" : contentWord(content),
    unit === null ? "" : MAPPED_UNITS[unit].shown,
    reason,
  ]);
  const table = [["  column", "heading", "holds", "unit", "why"], ...rows];
  const widths = [0, 1, 2, 3].map((index) => Math.min(30, widest(table.map((row) => row[index] ?? ""))));
  const until = list.lastRow === null ? "" : `, outlets to row ${list.lastRow}`;
  const isBeside = (other: ProposedList) =>
    other !== list && other.sheet === list.sheet && other.headerRow === list.headerRow;
  const columns = `, columns ${columnLetters(list.firstColumn)} to ${columnLetters(list.lastColumn)}`;
  const place = `headings in row ${list.headerRow}${lists.some(isBeside) ? columns : ""}`;
  console.log(`\n${onOneLine(list.sheet)}, ${place}${until}`);
  for (const row of table) {
    const line = row.map((text, index) => text.padEnd(widths[index] ?? 0)).join("  ");
    console.log(onOneLine(line).trimEnd());
  }
  const { factor, factorCell, kind } = list.stated;
  if (factorCell !== undefined) {
    const at = formatAddress(factorCell.row, factorCell.column);
    console.log(`  factor in ${at} for every outlet: ${list.statedReason}`);
  }
  if (factor !== undefined) console.log(`  factor ${factor} for every outlet: ${list.statedReason}`);
  if (kind !== undefined) console.log(`  kind ${kind} for every outlet`);
  const { sentence, isDoubtful } = list.agreement;
  if (sentence !== "" && !isDoubtful) console.log(`  ${sentence}`);
  const [title] = list.titles;
  if (title === undefined) return;
  const meant =
    list.stated.titles === undefined ? 'nothing. Say --set "titles=system" or "titles=room"' : list.stated.titles;
  console.log(onOneLine(`  titles over the outlets, such as “${title}”: ${meant}`));
}

function print(path: string, { lists, known, saved }: Said): void {
  if (lists.length === 0 && known.length === 0) {
    console.log(`${path}: no sheet looks like a list of outlets. Say where it is: --sheet NAME --heading-row N.`);
    return;
  }
  if (known.length > 0) console.log(`${path}: read already by their headings: ${known.join("; ")}.`);
  if (lists.length === 0) return;
  console.log(`${path}: ${counted(lists.length, "list")} of outlets.`);
  for (const list of lists) printList(list, lists);
  const questions = lists.flatMap(questionsOf);
  if (questions.length > 0) {
    console.log("\nNot sure:");
    for (const question of questions) console.log(`  ${onOneLine(question)}`);
  }
  if (saved !== null) console.log(`\n${saved} keeps this. Everything else in the file is as it was.`);
  else
    console.log(
      `\nNothing was written. ${questions.length === 0 ? "Add --keep to keep this in the workbook." : "Answer, then add --keep."}`,
    );
}

async function save(
  file: WorkbookFile,
  mappings: readonly ColumnMapping[],
  output: OutputFile | undefined,
): Promise<string> {
  const edits = mappingEdits(file.workbook, mappings);
  if (edits.length === 0 && output === undefined) return file.path;
  return (await saveChanged(file, patchWorkbook(file.workbook, edits), output)).path;
}

async function sayColumns(args: Arguments, path: string): Promise<Said> {
  const output = workbookOutput(args, path);
  const file = await openToChange(path, output);
  const { calculatedSource } = await import("../engine/calculation.js");
  const source = calculatedSource(file.workbook);
  const said = proposalsFor(args, source, path);
  const keeps = args.options["keep"] === true;
  if (!keeps && output !== undefined) throw new UsageError("-o OUT goes with --keep.");
  const isOpen = said.lists.some((list) => questionsOf(list).length > 0);
  if (!keeps || said.lists.length === 0 || (isOpen && args.options["as-proposed"] !== true)) {
    return { ...said, saved: null };
  }
  const mappings = mergedMappings(mappingsIn(source.names).value, said.lists.map(mappingOf));
  return { ...said, saved: await save(file, mappings, output) };
}

async function forget(args: Arguments, path: string): Promise<ExitStatus> {
  const output = workbookOutput(args, path);
  const file = await openToChange(path, output);
  const count = mappingsIn(file.workbook.names).value.length;
  await save(file, [], output);
  console.log(count === 0 ? `${path} keeps nothing of its columns.` : `${path}: ${counted(count, "list")} forgotten.`);
  return EXIT.done;
}

interface Taken {
  readonly file: string;
  /** Sheets whose columns are kept now. */
  readonly sheets: readonly string[];
  /** Why nothing of the file fits, or what a sheet that nearly fits lacks. */
  readonly unfit: readonly string[];
  /** Whether nothing of it fits, but it keeps columns of its own. */
  readonly keepsOwn: boolean;
}

/** Keeps what one workbook keeps of its columns in another of the same make. */
async function takeLike(master: WorkbookSource, path: string): Promise<Omit<Taken, "file">> {
  const file = await openWorkbookFile(path);
  const source = fileSource(file.workbook);
  const { mappings, unfit } = fitWorkbook(master, source);
  if (mappings.length > 0) await save(file, mergedMappings(mappingsIn(source.names).value, mappings), undefined);
  const keepsOwn = mappings.length === 0 && mappingsIn(source.names).value.length > 0;
  return { sheets: [...new Set(mappings.map(({ sheet }) => sheet))], unfit: keepsOwn ? [] : unfit, keepsOwn };
}

/** What does not fit, the workbooks with one reason together. */
function printUnfit(left: readonly Pick<Taken, "file" | "unfit">[]): void {
  const byReason = new Map<string, string[]>();
  for (const { file, unfit } of left) {
    for (const why of unfit) byReason.set(why, [...(byReason.get(why) ?? []), file]);
  }
  for (const [why, files] of byReason) {
    console.log(onOneLine(`Does not fit: ${why}`));
    for (const file of files) console.log(onOneLine(`  ${file}`));
  }
}

async function like(args: Arguments, masterPath: string): Promise<ExitStatus> {
  const { workbook, path } = await openWorkbookFile(masterPath);
  const master = fileSource(workbook);
  if (mappingsIn(master.names).value.length === 0) {
    throw new UsageError(
      `${masterPath} keeps nothing of its columns. Run vanesheet columns ${masterPath} --keep first.`,
    );
  }
  if (args.positionals.length === 0) throw new UsageError("FILE or FOLDER is missing: the workbooks of the same make.");
  const found = await findWorkbooks(args.positionals, new Set([path]));
  const taken: Taken[] = [];
  for (const one of found.value) {
    try {
      taken.push({ file: one.file, ...(await takeLike(master, one.path)) });
    } catch (cause) {
      if (!(cause instanceof HostError)) throw cause;
      // The message names the file as well.
      const named = `${basename(one.path)}: `;
      const problem = cause.message.startsWith(named) ? cause.message.slice(named.length) : cause.message;
      taken.push({ file: one.file, sheets: [], unfit: [problem], keepsOwn: false });
    }
  }
  const left = [
    ...taken.filter(({ unfit }) => unfit.length > 0),
    ...found.findings.map((finding) => ({ file: finding.file, unfit: [sentencesOf(finding)] })),
  ];
  if (args.options["json"] === true) console.log(JSON.stringify({ like: masterPath, taken, findings: found.findings }));
  else {
    const whole = taken.filter(({ sheets }) => sheets.length > 0);
    console.log(`${counted(whole.length, "workbook")} of ${taken.length} keep their columns as ${masterPath} does.`);
    for (const { file, sheets } of whole) console.log(onOneLine(`  ${file}: ${sheets.join(", ")}`));
    const own = taken.filter(({ keepsOwn }) => keepsOwn);
    if (own.length > 0)
      console.log(
        `${counted(own.length, "workbook")} more ${own.length === 1 ? "keeps" : "keep"} other columns already.`,
      );
    printUnfit(left);
  }
  return left.length > 0 ? EXIT.found : EXIT.done;
}

export const columnsCommand: Command = {
  usage: 'FILE [--sheet NAME [--heading-row N]] [--set "D=width in"]… [--keep [-o OUT]] | --like FILE FOLDER…',
  help: [
    "Says what each column of your own sheets seems to hold, with the reason and the unit. It asks where it is not sure.",
    "With --keep the workbook keeps the answer, in hidden names; everything else in it stays, byte for byte.",
    "From then on check, rollup, the page and the pane read that sheet as a list of outlets.",
    "",
    "  --sheet NAME      looks at this sheet alone; --heading-row N names its last row of headings",
    '  --set "D=width in"  says it yourself: a column or several (F:K=readings fpm), a unit, or nothing (M=nothing);',
    "                    factor=0.75 or kind=supply for every outlet; titles=system or titles=room, what titles over",
    "                    outlets name; rows=46, the last row of the list",
    "  --keep            keeps it in the workbook; -o OUT in a copy",
    "  --as-proposed     with --keep: takes the proposal where it is not sure as well",
    "  --like FILE       keeps in other workbooks, or folders of them, what FILE keeps, and lists what does not fit",
    "  --forget          takes out what the workbook keeps of its columns",
    "  --json            prints the same as data",
    "",
    "Ends with status 1 while a question is open, or where something does not fit. docs/columns.md lists the headings.",
  ],
  options: {
    ...OUTPUT_OPTIONS,
    sheet: { type: "string" },
    "heading-row": { type: "string" },
    set: { type: "string", multiple: true },
    keep: { type: "boolean" },
    "as-proposed": { type: "boolean" },
    like: { type: "string" },
    forget: { type: "boolean" },
    json: { type: "boolean" },
  },
  async run(args) {
    const master = textOption(args, "like");
    if (master !== null) return like(args, master);
    const path = onePositional(args, "FILE");
    if (args.options["forget"] === true) return forget(args, path);
    const said = await sayColumns(args, path);
    const questions = said.lists.flatMap(questionsOf);
    if (args.options["json"] === true) console.log(JSON.stringify({ file: path, ...said, questions }));
    else print(path, said);
    return said.lists.length + said.known.length === 0 || (questions.length > 0 && said.saved === null)
      ? EXIT.found
      : EXIT.done;
  },
};
