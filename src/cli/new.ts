import { openTemplate, saveWorkbookCopy } from "../hosts/file/index.js";
import { JOB_SHEET, jobCell, TEMPLATES, type TemplateId } from "../workbook/index.js";
import { openWorkbook, parseAddress, patchWorkbook, type Workbook } from "../xlsx/index.js";
import { type Arguments, type Command, EXIT, UsageError } from "./command.js";
import { requireEnding, WORKBOOK_ENDING } from "./output-file.js";

const UNITS = { ip: "in, ft², fpm, cfm", si: "mm, m², m/s, L/s" } as const;

type Units = keyof typeof UNITS;

const templateIds = Object.keys(TEMPLATES) as readonly TemplateId[];

function listTemplates(): void {
  const width = Math.max(...templateIds.map((id) => id.length));
  for (const id of templateIds) console.log(`${id.padEnd(width)}  ${TEMPLATES[id]("").description}`);
  console.log(`\nvanesheet new ${templateIds[0]} my-job${WORKBOOK_ENDING} starts a workbook from the first.`);
}

function requestedUnits({ options }: Arguments): Units {
  const units = options["units"] ?? "ip";
  if (units === "ip" || units === "si") return units;
  throw new UsageError(`--units takes ip (${UNITS.ip}) or si (${UNITS.si}), not “${units}”.`);
}

/** Puts the choice of units into the one cell that keeps it, and brings the results that read it up to date. */
async function inUnits(template: Workbook, units: Units): Promise<Uint8Array> {
  const [sheet = "", address = ""] = jobCell("units").split("!");
  const bytes = patchWorkbook(template, [{ kind: "value", sheet, address, value: units }]);
  if (bytes === template.archive.bytes) return bytes;
  const { calculateXlsx } = await import("../engine/index.js");
  const changed = openWorkbook(bytes, template.fileName);
  const place = parseAddress(address);
  return patchWorkbook(changed, calculateXlsx(changed, place === undefined ? [] : [{ sheet, ...place }]).edits);
}

export const newCommand: Command = {
  usage: "[TEMPLATE FILE] [--units ip|si]",
  help: [
    "Starts a workbook from a template; without arguments, lists the templates.",
    "A file that is there already is never overwritten.",
    "",
    `  --units si  ${UNITS.si} instead of ${UNITS.ip}`,
    "",
    `vanesheet new ${templateIds[0]} my-job${WORKBOOK_ENDING}`,
  ],
  options: { units: { type: "string" } },
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
    await saveWorkbookCopy(path, await inUnits(await openTemplate(id), units), "refuse");
    console.log(`${path}: ${TEMPLATES[id]("").title}. Units: ${UNITS[units]}. Begin with the sheet ${JOB_SHEET}.`);
    return EXIT.done;
  },
};
