import type { UnitSystemName } from "../core/index.js";
import { openTemplate, saveWorkbookCopy } from "../hosts/file/index.js";
import {
  type BalanceBlock,
  isAsItsFile,
  JOB_SHEET,
  MOST_ROWS,
  SIZED_TABLES,
  type SizedThing,
  sizedTemplate,
  TEMPLATES,
  type TemplateId,
  type TemplateOptions,
  type TemplateSizes,
  templateChoices,
} from "../workbook/index.js";
import type { Paper, Workbook } from "../xlsx/index.js";
import { type Arguments, type Command, EXIT, type ExitStatus, UsageError } from "./command.js";
import { requireEnding, WORKBOOK_ENDING } from "./output-file.js";

const UNITS = { ip: "in, ft², fpm, cfm", si: "mm, m², m/s, L/s" } as const;

const templateIds = Object.keys(TEMPLATES) as readonly TemplateId[];

function listTemplates(): void {
  const width = Math.max(...templateIds.map((id) => id.length));
  for (const id of templateIds) console.log(`${id.padEnd(width)}  ${TEMPLATES[id]("").description}`);
  console.log(`\nvanesheet new ${templateIds[0]} my-job${WORKBOOK_ENDING} starts a workbook from the first.`);
}

function requestedUnits({ options }: Arguments): UnitSystemName {
  const units = options["units"] ?? "ip";
  if (units === "ip" || units === "si") return units;
  throw new UsageError(`--units takes ip (${UNITS.ip}) or si (${UNITS.si}), not “${units}”.`);
}

interface Wanted {
  readonly units: UnitSystemName;
  readonly paper: Paper | undefined;
  readonly formulas: "functions" | "plain";
  readonly sizes: TemplateSizes;
  readonly options: TemplateOptions;
}

/** Reads the number that an option was given; undefined where it was not. */
function requestedCount({ options }: Arguments, option: string, most: number): number | undefined {
  const asked = options[option];
  if (asked === undefined) return undefined;
  const count = Number(asked);
  if (!/^\d+$/.test(String(asked).trim()) || count < 1 || count > most) {
    throw new UsageError(`--${option} takes a whole number from 1 to ${most}, not “${asked}”.`);
  }
  return count;
}

const SIZED: readonly SizedThing[] = ["outlets", "rooms", "systems"];

function requestedSizes(args: Arguments, id: TemplateId): TemplateSizes {
  const sizes: Partial<Record<SizedThing, number>> = {};
  for (const thing of SIZED) {
    const rows = requestedCount(args, thing, MOST_ROWS);
    if (rows === undefined) continue;
    if (SIZED_TABLES[id][thing] === undefined) {
      const others = templateIds.filter((other) => SIZED_TABLES[other][thing] !== undefined);
      throw new UsageError(`The template ${id} has no list of ${thing}; --${thing} goes with ${others.join(", ")}.`);
    }
    sizes[thing] = rows;
  }
  return sizes;
}

function requestedOptions(args: Arguments, id: TemplateId): TemplateOptions {
  const choices = templateChoices(id);
  if (choices.points === null && args.options["points"] !== undefined) {
    const others = templateIds.filter((other) => templateChoices(other).points !== null);
    throw new UsageError(`The template ${id} has no columns of readings; --points goes with ${others.join(", ")}.`);
  }
  const points = requestedCount(args, "points", choices.points?.most ?? 0);
  const blocks = requestedBlocks(args, id);
  return { ...(points === undefined ? {} : { points }), ...(blocks.length === 0 ? {} : { blocks }) };
}

/** What a room balance may hold besides. */
const BLOCKS = templateChoices("room-balance").blocks;

/** Fits one kind of meter only, so that nobody gets it who asks for everything. */
const NOT_OF_ALL: ReadonlySet<BalanceBlock> = new Set(["thermal"]);

/** Reads the names of blocks, commas between them; "all" is every one. */
function requestedBlocks({ options }: Arguments, id: TemplateId): readonly BalanceBlock[] {
  const asked = options["with"];
  if (asked === undefined) return [];
  const known = templateChoices(id).blocks.map(({ block }) => block);
  if (known.length === 0) throw new UsageError(`--with goes with room-balance, not with ${id}.`);
  const words = String(asked)
    .split(",")
    .map((word) => word.trim().toLowerCase());
  const unknown = words.find((word) => word !== "all" && !known.some((block) => block === word));
  if (unknown !== undefined) {
    throw new UsageError(`--with takes ${known.join(", ")}, commas between them, or all, not “${unknown}”.`);
  }
  return known.filter((block) => words.includes(block) || (words.includes("all") && !NOT_OF_ALL.has(block)));
}

const PAPERS: readonly Paper[] = ["letter", "a4"];

function requestedPaper({ options }: Arguments): Paper | undefined {
  const asked = options["paper"];
  if (asked === undefined) return undefined;
  const paper = PAPERS.find((known) => known === String(asked).toLowerCase());
  if (paper === undefined) throw new UsageError(`--paper takes ${PAPERS.join(" or ")}, not “${asked}”.`);
  return paper;
}

/** Starts a sheet of before and after that holds what a job's outlets say of both. */
async function startedFromJob(args: Arguments, id: TemplateId, path: string): Promise<ExitStatus> {
  if (id !== "before-after") throw new UsageError(`--from goes with before-after, not with ${id}.`);
  const told = ["points", "outlets"].find((option) => args.options[option] !== undefined);
  if (told !== undefined) throw new UsageError(`--${told} follows from the job: leave it out beside --from.`);
  const { beforeAfterOf } = await import("./new-from-job.js");
  const units = args.options["units"] === undefined ? null : requestedUnits(args);
  const formulas = args.options["plain"] === true ? "plain" : "functions";
  const from = String(args.options["from"]);
  const made = await beforeAfterOf(from, { units, formulas, paper: requestedPaper(args) });
  await saveWorkbookCopy(path, made.bytes, "refuse");
  console.log(`${path}: ${made.said}`);
  return EXIT.done;
}

/** What writes a workbook from its plan is loaded only for a template that is not as its file has it. */
async function planned(id: TemplateId, options: TemplateOptions): Promise<Workbook> {
  const { plannedTemplate } = await import("../engine/planned-template.js");
  return plannedTemplate(id, options);
}

/** A template as it comes needs no calculation, so that the engine is loaded only for another. */
async function started(id: TemplateId, wanted: Wanted): Promise<Uint8Array> {
  const { units, formulas, sizes, options } = wanted;
  const isAsPlanned = isAsItsFile(options);
  const isAsItComes = units === "ip" && (wanted.paper ?? "letter") === "letter" && formulas === "functions";
  if (isAsItComes && isAsPlanned && Object.keys(sizes).length === 0) return (await openTemplate(id)).archive.bytes;
  const { startWorkbook, usualPaper } = await import("../engine/calculation.js");
  const template = isAsPlanned ? await openTemplate(id) : await planned(id, options);
  const { workbook, outdated } = sizedTemplate(template, id, sizes);
  return startWorkbook(workbook, { units, formulas, paper: wanted.paper ?? usualPaper(units), outdated });
}

export const newCommand: Command = {
  usage:
    "[TEMPLATE FILE] [--outlets N] [--rooms N] [--systems N] [--points N] [--with BLOCKS] [--from JOB.xlsx] [--units ip|si] [--paper letter|a4] [--plain]",
  help: [
    "Starts a workbook from a template; without arguments, lists the templates.",
    "A file that is there already is never overwritten.",
    "",
    `  --units si   ${UNITS.si} instead of ${UNITS.ip}`,
    "  --plain      the same in plain formulas, for a spreadsheet program without the add-in",
    "  --paper a4   print on A4; otherwise Letter, or A4 with --units si",
    "  --outlets 120  rows for so many outlets, formulas, sums, print and chart included;",
    "               also --rooms and --systems, where the template lists them",
    "  --points 9   so many readings for each outlet; in a face sweep, so many sweeps",
    "  --with shares,seasons  a room balance with blocks that the plain one leaves out; all for every one but thermal:",
    ...BLOCKS.map(({ block, about }) => `               ${block}: ${about}`),
    "  --from JOB.xlsx  before-after alone: filled with the readings as found and as left of that",
    "               job's outlets, a room balance --with visits; what has none is named and stays empty",
    "",
    `vanesheet new ${templateIds[0]} my-job${WORKBOOK_ENDING}`,
  ],
  options: {
    units: { type: "string" },
    paper: { type: "string" },
    plain: { type: "boolean" },
    outlets: { type: "string" },
    rooms: { type: "string" },
    systems: { type: "string" },
    points: { type: "string" },
    with: { type: "string" },
    from: { type: "string" },
  },
  async run(args) {
    const [name, path, ...rest] = args.positionals;
    if (name === undefined) {
      listTemplates();
      return EXIT.done;
    }
    const id = templateIds.find((known) => known === name);
    if (id === undefined) throw new UsageError(`There is no template “${name}”, only ${templateIds.join(", ")}.`);
    if (path === undefined) throw new UsageError("FILE is missing: the workbook to start.");
    if (rest.length > 0) throw new UsageError(`One FILE is taken, but ${rest.length + 1} were given.`);
    requireEnding(path, WORKBOOK_ENDING);
    if (args.options["from"] !== undefined) return startedFromJob(args, id, path);
    const units = requestedUnits(args);
    const formulas = args.options["plain"] === true ? "plain" : "functions";
    const sizes = requestedSizes(args, id);
    const options = requestedOptions(args, id);
    const wanted = { units, formulas, sizes, options, paper: requestedPaper(args) } as const;
    await saveWorkbookCopy(path, await started(id, wanted), "refuse");
    const rows = Object.entries(sizes).map(([thing, count]) => `${count} ${thing}`);
    const readings = options.points === undefined ? "" : ` ${options.points} readings for each outlet.`;
    const besides = options.blocks === undefined ? "" : ` With ${options.blocks.join(", ")}.`;
    const sized = `${rows.length === 0 ? "" : ` Rows for ${rows.join(", ")}.`}${readings}${besides}`;
    console.log(
      `${path}: ${TEMPLATES[id]("").title}. Units: ${UNITS[units]}.${sized} Begin with the sheet ${JOB_SHEET}.`,
    );
    return EXIT.done;
  },
};
