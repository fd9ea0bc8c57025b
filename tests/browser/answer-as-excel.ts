import type { RichAction, RichPath, RichRequest } from "../../src/tools/excel-bridge/page-side.js";
import type { CellRange } from "../../src/xlsx/address.js";
import {
  EXCEL_EVENT,
  FakeExcelError,
  type FakeSheet,
  type FakeWorkbook,
  givenRange,
} from "../hosts/excel/fake-workbook.js";

/*
 * Answers what office.js asks of a workbook, action by action and in order, as far as the add-in asks. An action or a
 * property that is not known here fails the request, as one that Excel does not know would.
 */

/** What a path in a request leads to. */
type Target =
  | { readonly kind: "workbook" | "application" | "worksheets" | "names" | "tables" | "settings" | "nothing" }
  | { readonly kind: "functions" | "start behaviour" }
  | { readonly kind: "function result"; readonly value: unknown }
  | { readonly kind: "setting"; readonly key: string }
  | { readonly kind: "named item"; readonly name: string }
  | { readonly kind: "areas"; readonly address: string }
  | { readonly kind: "new workbook"; readonly base64: string }
  | { readonly kind: "sheet" | "protection" | "sheet names" | "panes" | "page layout"; readonly sheet: FakeSheet }
  | { readonly kind: "range"; readonly sheet: FakeSheet; readonly range: CellRange };

type Answer = Readonly<Record<string, unknown>>;

const PATH = { root: 1, service: 2, method: 3, property: 4, indexer: 5, reference: 6 } as const;
const ACTION = { instantiate: 1, query: 2, method: 3, set: 4, trace: 5 } as const;

/** The event that each registration asks for; Excel tells only of those that were asked for. */
const REGISTRATIONS: Readonly<Record<string, number>> = {
  _RegisterDataChangedEvent: EXCEL_EVENT.changed,
  _RegisterActivatedEvent: EXCEL_EVENT.activated,
  _RegisterSelectionChangedEvent: EXCEL_EVENT.selected,
  _RegisterCalculatedEvent: EXCEL_EVENT.calculated,
};

/** Under which name a range is kept, so that a later request finds it again. */
function referenceTo(sheet: FakeSheet, range: CellRange): string {
  return [sheet.id, range.firstRow, range.firstColumn, range.lastRow, range.lastColumn].join("|");
}

function rangeReferredTo(workbook: FakeWorkbook, reference: string): Target {
  const [id = "", ...numbers] = reference.split("|");
  const [firstRow = 0, firstColumn = 0, lastRow = 0, lastColumn = 0] = numbers.map(Number);
  return { kind: "range", sheet: workbook.sheet(id), range: { firstRow, firstColumn, lastRow, lastColumn } };
}

function areasOrNothing(address: string | null): Target {
  return address === null ? { kind: "nothing" } : { kind: "areas", address };
}

class Resolver {
  constructor(
    private readonly workbook: FakeWorkbook,
    private readonly paths: RichRequest["ObjectPaths"],
  ) {}

  target(id: number): Target {
    const path = this.paths[id];
    if (path === undefined) throw new FakeExcelError("InvalidObjectPath");
    if (path.ObjectPathType === PATH.root) return { kind: "workbook" };
    if (path.ObjectPathType === PATH.service) return this.service(path.Name);
    if (path.ObjectPathType === PATH.reference) return rangeReferredTo(this.workbook, path.Name);
    return this.below(this.target(path.ParentObjectPathId ?? 0), path);
  }

  private service(name: string): Target {
    if (name === "Microsoft.AppRuntime.AppRuntimePersistenceService") return { kind: "start behaviour" };
    throw new Error(`The stand-in for Excel does not offer ${name}`);
  }

  private setting(name: string, [key, value]: readonly unknown[]): Target {
    if (name === "Add") {
      this.workbook.requireWritable();
      this.workbook.settings.set(String(key), value);
    } else if (name !== "GetItemOrNullObject") throw new Error(`The stand-in for Excel has no ${name} of settings`);
    return this.workbook.settings.has(String(key)) ? { kind: "setting", key: String(key) } : { kind: "nothing" };
  }

  /** A name of the workbook; one that is added takes the place of none. */
  private namedItem(way: string, [name, refersTo]: readonly unknown[]): Target {
    if (way === "Add") {
      this.workbook.requireWritable();
      this.workbook.names.set(String(name), String(refersTo).replace(/^=/, ""));
    } else if (way !== "GetItem") throw new Error(`The stand-in for Excel knows no names by ${way}`);
    return { kind: "named item", name: String(name) };
  }

  private below(parent: Target, { ObjectPathType, Name, ArgumentInfo }: RichPath): Target {
    const [first] = ArgumentInfo?.Arguments ?? [];
    const step = `${parent.kind} ${ObjectPathType === PATH.indexer ? "[]" : Name}`;
    if (parent.kind === "sheet") {
      if (Name === "Protection") return { kind: "protection", sheet: parent.sheet };
      if (Name === "FreezePanes") return { kind: "panes", sheet: parent.sheet };
      if (Name === "PageLayout") return { kind: "page layout", sheet: parent.sheet };
      if (Name === "Names") return { kind: "sheet names", sheet: parent.sheet };
      if (Name === "GetRange") return { kind: "range", sheet: parent.sheet, range: givenRange(String(first)) };
      if (Name === "GetUsedRangeOrNullObject") {
        const range = this.workbook.usedRange(parent.sheet);
        return range === null ? { kind: "nothing" } : { kind: "range", sheet: parent.sheet, range };
      }
    }
    if (parent.kind === "range" && Name === "GetMergedAreasOrNullObject") {
      return areasOrNothing(this.workbook.mergedAreas(parent.sheet, parent.range));
    }
    if (parent.kind === "range" && Name === "GetSpecialCellsOrNullObject" && first === "Visible") {
      return areasOrNothing(this.workbook.areasInView(parent.sheet, parent.range));
    }
    if (parent.kind === "panes" && Name === "GetLocationOrNullObject") return this.frozenRows(parent.sheet);
    if (parent.kind === "settings") return this.setting(Name, ArgumentInfo?.Arguments ?? []);
    if (parent.kind === "names")
      return this.namedItem(ObjectPathType === PATH.indexer ? "GetItem" : Name, ArgumentInfo?.Arguments ?? []);
    if (parent.kind === "functions") return this.calculated(Name, ArgumentInfo?.Arguments ?? []);
    if (step === "worksheets GetActiveWorksheet") return { kind: "sheet", sheet: this.workbook.activeSheet };
    if (/^worksheets GetItem(OrNullObject)?$/.test(step)) return this.sheetOrNothing(Name, String(first));
    if (step === "application CreateWorkbook") return { kind: "new workbook", base64: String(first) };
    if (step === "workbook Worksheets") return { kind: "worksheets" };
    if (step === "workbook Names") return { kind: "names" };
    if (step === "workbook Tables") return { kind: "tables" };
    if (step === "workbook Settings") return { kind: "settings" };
    if (step === "workbook Functions") return { kind: "functions" };
    if (step === "workbook Application") return { kind: "application" };
    if (step === "worksheets []") return { kind: "sheet", sheet: this.workbook.sheet(String(first)) };
    if (step === "workbook GetSelectedRange") return this.selected();
    throw new Error(`The stand-in for Excel does not know the way ${step}`);
  }

  private sheetOrNothing(way: string, name: string): Target {
    const found = this.workbook.sheets.find((sheet) => sheet.name === name || sheet.id === name);
    if (found === undefined && way === "GetItemOrNullObject") return { kind: "nothing" };
    return { kind: "sheet", sheet: this.workbook.sheet(name) };
  }

  /** Excel's DATE counts days as the workbook does; 2 January 1904 is day 1462 from 1900 on, and day 1 from 1904 on. */
  private calculated(name: string, args: readonly unknown[]): Target {
    if (name !== "Date" || args.join() !== "1904,1,2")
      throw new Error(`The stand-in for Excel has no function ${name}`);
    return { kind: "function result", value: this.workbook.is1904 ? 1 : 1463 };
  }

  private frozenRows(sheet: FakeSheet): Target {
    const { frozenRows } = this.workbook;
    if (frozenRows === 0) return { kind: "nothing" };
    return { kind: "range", sheet, range: givenRange(`A1:XFD${frozenRows}`) };
  }

  private selected(): Target {
    if (this.workbook.selected === null) throw new FakeExcelError("InvalidSelection");
    const range = this.workbook.selected.slice(this.workbook.selected.lastIndexOf("!") + 1);
    return { kind: "range", sheet: this.workbook.activeSheet, range: givenRange(range) };
  }
}

function sheetAnswer(sheet: FakeSheet): Answer {
  return { Id: sheet.id, Name: sheet.name, Protection: { Protected: sheet.protection !== null } };
}

function namedItems(names: Readonly<Record<string, string>>): Answer {
  return { _Items: Object.entries(names).map(([Name, refersTo]) => ({ Name, Formula: `=${refersTo}` })) };
}

function queried(workbook: FakeWorkbook, target: Target): Answer {
  if (target.kind === "worksheets") return { _Items: workbook.sheets.map(sheetAnswer) };
  if (target.kind === "names") return namedItems(Object.fromEntries(workbook.names));
  if (target.kind === "sheet names") return namedItems({});
  if (target.kind === "named item") {
    return { Name: target.name, Formula: `=${workbook.names.get(target.name) ?? ""}` };
  }
  if (target.kind === "areas") return { Address: target.address };
  if (target.kind === "tables") return { _Items: [] };
  if (target.kind === "setting") return { Key: target.key, Value: workbook.settings.get(target.key), _Id: target.key };
  if (target.kind === "function result") return { Value: target.value, Error: null };
  if (target.kind === "application") {
    return {
      DecimalSeparator: workbook.decimalSeparator,
      ThousandsSeparator: workbook.decimalSeparator === "," ? "." : ",",
    };
  }
  if (target.kind === "sheet") return sheetAnswer(target.sheet);
  if (target.kind === "protection") {
    return { Protected: target.sheet.protection !== null, Options: target.sheet.protection ?? {} };
  }
  if (target.kind !== "range") return {};
  const { address, values, valueTypes, formulas, locked } = workbook.block(target.sheet, target.range);
  return {
    _ReferenceId: referenceTo(target.sheet, target.range),
    Address: address,
    Values: values,
    ValueTypes: valueTypes,
    Formulas: formulas,
    HasSpill: false,
    Format: { Protection: { Locked: locked ?? null } },
  };
}

/** The properties that a query asks for must be among those that are answered. */
function requireKnown(query: unknown, answer: Answer): void {
  const asked = (query as { readonly Select?: readonly string[] } | undefined)?.Select ?? [];
  const items = answer["_Items"] as readonly Answer[] | undefined;
  const known = items === undefined ? answer : items[0];
  for (const path of known === undefined ? [] : asked) {
    let place: unknown = known;
    for (const step of path.split("/")) {
      const name = `${step[0]?.toUpperCase()}${step.slice(1)}`;
      if (typeof place !== "object" || place === null || !(name in place))
        throw new Error(`Nothing is known of ${path}`);
      place = (place as Answer)[name];
    }
  }
}

function carriedOut(workbook: FakeWorkbook, target: Target, action: RichAction, asked: Set<number>): unknown {
  const [first] = action.ArgumentInfo?.Arguments ?? [];
  const step = `${target.kind} ${action.Name}`;
  if (/ (_KeepReference|_RemoveReference|SuspendApiCalculationUntilNextSync|Activate)$/.test(step)) return null;
  const event = REGISTRATIONS[action.Name.replace("_Unregister", "_Register")];
  if (event !== undefined) {
    if (action.Name.startsWith("_Register")) asked.add(event);
    else asked.delete(event);
    return null;
  }
  if (target.kind === "start behaviour" && action.Name === "GetAppRuntimeStartState") return workbook.startState;
  if (target.kind === "start behaviour" && action.Name === "SetAppRuntimeStartState") {
    workbook.requireWritable();
    workbook.startState = String(first);
    return null;
  }
  if (target.kind === "range" && action.Name === "Select") return workbook.select(target.sheet, target.range);
  if (target.kind === "protection" && action.Name === "Unprotect") return workbook.unprotect(target.sheet);
  if (target.kind === "protection" && action.Name === "Protect") {
    target.sheet.protection = first as FakeSheet["protection"];
    return null;
  }
  if (target.kind === "range" && action.Name === "Formulas") {
    return workbook.enter(target.sheet, target.range, first as unknown[][]);
  }
  if (target.kind === "named item" && action.Name === "Delete") {
    workbook.requireWritable();
    workbook.names.delete(target.name);
    return null;
  }
  // Whether a name is shown to people changes nothing of what is answered here.
  if (target.kind === "named item" && action.Name === "Visible") return null;
  if (target.kind === "new workbook" && action.Name === "Open") return void workbook.opened.push(target.base64);
  if (target.kind === "page layout") return void workbook.printSetUp.push([action.Name, first]);
  throw new Error(`The stand-in for Excel cannot do ${step}`);
}

function answered(workbook: FakeWorkbook, resolver: Resolver, action: RichAction, asked: Set<number>): unknown {
  if (action.ActionType === ACTION.trace) return null;
  const target = resolver.target(action.ObjectPathId);
  if (target.kind === "nothing") return null;
  if (action.ActionType === ACTION.instantiate) {
    return target.kind === "workbook" ? {} : pick(queried(workbook, target), ["Id", "_ReferenceId"]);
  }
  if (action.ActionType !== ACTION.query) return carriedOut(workbook, target, action, asked) ?? null;
  const answer = queried(workbook, target);
  requireKnown(action.QueryInfo, answer);
  return answer;
}

function pick(answer: Answer, names: readonly string[]): Answer {
  return Object.fromEntries(Object.entries(answer).filter(([name]) => names.includes(name)));
}

/**
 * Returns a function that answers the requests of office.js from a workbook.
 *
 * @param asked - Takes the numbers of the events that the page wants to hear of
 */
export function answerAsExcel(
  workbook: FakeWorkbook,
  asked: Set<number> = new Set(),
): (request: RichRequest) => Promise<object> {
  return async ({ Actions, ObjectPaths }) => {
    const resolver = new Resolver(workbook, ObjectPaths);
    const Results: object[] = [];
    if (workbook.isCellEdited) {
      return {
        Error: { Code: "InvalidOperationInCellEditMode", Message: "A cell is edited", ActionIndex: 0 },
        Results,
      };
    }
    for (const action of Actions) {
      try {
        Results.push({ ActionId: action.Id, Value: answered(workbook, resolver, action, asked) });
      } catch (thrown) {
        const Code = thrown instanceof FakeExcelError ? thrown.code : "GeneralException";
        return { Error: { Code, Message: String(thrown), ActionIndex: Results.length }, Results };
      }
    }
    return { Results, ProcessedResults: [] };
  };
}
