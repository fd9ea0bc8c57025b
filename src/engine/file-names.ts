import { type CommandResult, registries, UIPlugin } from "@odoo/o-spreadsheet";

const PLUGIN = "VANE_FILE_NAMES";

const ALLOWED = "Success" as CommandResult;
/** In the library's own words, which its box of names says to the person. */
const INVALID = "NamedRangeInvalidName" as CommandResult;

const LONGEST = 255;

/** A letter or an underscore begins a name; the library takes a digit or a dot too. */
const FILE_NAME = /^[\p{L}_][\p{L}\p{N}_.]*$/u;

/** A row, a column or a cell in the other spelling of addresses: R, C2, R1C1. */
const OTHER_ADDRESS = /^(?:R\d*(?:C\d*)?|C\d*)$/i;

/** Names that the file format keeps for itself. */
const BUILT_IN = /^_xlnm\./i;

/**
 * Whether a file may hold a name; a spreadsheet program takes a file with another for damaged.
 *
 * @source ECMA-376-1:2016, section 18.2.5 (definedName); R and C from memory, unverified
 */
export function isFileName(name: string): boolean {
  return name.length <= LONGEST && FILE_NAME.test(name) && !OTHER_ADDRESS.test(name) && !BUILT_IN.test(name);
}

interface NameCommand {
  readonly type: string;
  readonly name?: string;
  readonly newRangeName?: string;
}

class FileNamesPlugin extends UIPlugin {
  override allowDispatch(command: { readonly type: string }): CommandResult {
    const { type, name, newRangeName } = command as NameCommand;
    const given = type === "CREATE_NAMED_RANGE" ? name : type === "UPDATE_NAMED_RANGE" ? newRangeName : undefined;
    return given === undefined || isFileName(given) ? ALLOWED : INVALID;
  }
}

/** Lets a person give only names that the file can take in; a model made later knows it. */
export function registerFileNames(): void {
  if (!registries.featurePluginRegistry.contains(PLUGIN)) registries.featurePluginRegistry.add(PLUGIN, FileNamesPlugin);
}
