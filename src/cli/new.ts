import type { UnitSystemName } from "../core/index.js";
import { openTemplate, saveWorkbookCopy } from "../hosts/file/index.js";
import {
  JOB_SHEET,
  MOST_ROWS,
  SIZED_TABLES,
  type SizedThing,
  sizedTemplate,
  TEMPLATES,
  type TemplateId,
  type TemplateSizes,
} from "../workbook/index.js";
import type { Paper, Workbook } from "../xlsx/index.js";
import { type Arguments, type Command, EXIT, UsageError } from "./command.js";
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
}

const SIZED: readonly SizedThing[] = ["outlets", "rooms", "systems"];

function requestedSizes({ options }: Arguments, id: TemplateId): TemplateSizes {
  const sizes: Partial<Record<SizedThing, number>> = {};
  for (const thing of SIZED) {
    const asked = options[thing];
    if (asked === undefined) continue;
    if (SIZED_TABLES[id][thing] === undefined) {
      const others = templateIds.filter((other) => SIZED_TABLES[other][thing] !== undefined);
      throw new UsageError(`The template ${id} has no list of ${thing}; --${thing} goes with ${others.join(", ")}.`);
    }
    const rows = Number(asked);
    if (!/^\d+$/.test(String(asked).trim()) || rows < 1 || rows > MOST_ROWS) {
      throw new UsageError(`--${thing} takes a whole number from 1 to ${MOST_ROWS}, not “${asked}”.`);
    }
    sizes[thing] = rows;
  }
  return sizes;
}

const PAPERS: readonly Paper[] = ["letter", "a4"];

function requestedPaper({ options }: Arguments): Paper | undefined {
  const asked = options["paper"];
  if (asked === undefined) return undefined;
  const paper = PAPERS.find((known) => known === String(asked).toLowerCase());
  if (paper === undefined) throw new UsageError(`--paper takes ${PAPERS.join(" or ")}, not “${asked}”.`);
  return paper;
}

/** A template as it comes needs no calculation, so that the engine is loaded only for another. */
async function started(template: Workbook, id: TemplateId, wanted: Wanted): Promise<Uint8Array> {
  const { units, formulas, sizes } = wanted;
  const isAsItComes = units === "ip" && (wanted.paper ?? "letter") === "letter" && formulas === "functions";
  if (isAsItComes && Object.keys(sizes).length === 0) return template.archive.bytes;
  const { startWorkbook, usualPaper } = await import("../engine/calculation.js");
  const { workbook, outdated } = sizedTemplate(template, id, sizes);
  return startWorkbook(workbook, { units, formulas, paper: wanted.paper ?? usualPaper(units), outdated });
}

export const newCommand: Command = {
  usage: "[TEMPLATE FILE] [--outlets N] [--rooms N] [--systems N] [--units ip|si] [--paper letter|a4] [--plain]",
  help: [
    "Starts a workbook from a template; without arguments, lists the templates.",
    "A file that is there already is never overwritten.",
    "",
    `  --units si   ${UNITS.si} instead of ${UNITS.ip}`,
    "  --plain      the same in plain formulas, for a spreadsheet program without the add-in",
    "  --paper a4   print on A4; otherwise Letter, or A4 with --units si",
    "  --outlets 120  rows for so many outlets, formulas, sums, print and chart included;",
    "               also --rooms and --systems, where the template lists them",
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
    const units = requestedUnits(args);
    const formulas = args.options["plain"] === true ? "plain" : "functions";
    const sizes = requestedSizes(args, id);
    const wanted = { units, formulas, sizes, paper: requestedPaper(args) } as const;
    await saveWorkbookCopy(path, await started(await openTemplate(id), id, wanted), "refuse");
    const rows = Object.entries(sizes).map(([thing, count]) => `${count} ${thing}`);
    const sized = rows.length === 0 ? "" : ` Rows for ${rows.join(", ")}.`;
    console.log(
      `${path}: ${TEMPLATES[id]("").title}. Units: ${UNITS[units]}.${sized} Begin with the sheet ${JOB_SHEET}.`,
    );
    return EXIT.done;
  },
};
