import type { RichAction, RichPath, RichRequest } from "../../src/tools/excel-bridge/page-side.js";
import type { CellRange } from "../../src/xlsx/address.js";
import { FakeExcelError, type FakeSheet, type FakeWorkbook, givenRange } from "../hosts/excel/fake-workbook.js";

/*
 * Answers what office.js asks of a workbook, action by action and in order, as far as the add-in asks. An action or a
 * property that is not known here fails the request, as one that Excel does not know would.
 */

/** What a path in a request leads to. */
type Target =
  | { readonly kind: "workbook" | "application" | "worksheets" | "names" | "nothing" }
  | { readonly kind: "new workbook"; readonly base64: string }
  | { readonly kind: "sheet" | "protection" | "sheet names" | "panes" | "page layout"; readonly sheet: FakeSheet }
  | { readonly kind: "range"; readonly sheet: FakeSheet; readonly range: CellRange };

type Answer = Readonly<Record<string, unknown>>;

const PATH = { root: 1, method: 3, property: 4, indexer: 5, reference: 6 } as const;
const ACTION = { instantiate: 1, query: 2, method: 3, set: 4 } as const;

/** Under which name a range is kept, so that a later request finds it again. */
function referenceTo(sheet: FakeSheet, range: CellRange): string {
  return [sheet.id, range.firstRow, range.firstColumn, range.lastRow, range.lastColumn].join("|");
}

function rangeReferredTo(workbook: FakeWorkbook, reference: string): Target {
  const [id = "", ...numbers] = reference.split("|");
  const [firstRow = 0, firstColumn = 0, lastRow = 0, lastColumn = 0] = numbers.map(Number);
  return { kind: "range", sheet: workbook.sheet(id), range: { firstRow, firstColumn, lastRow, lastColumn } };
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
    if (path.ObjectPathType === PATH.reference) return rangeReferredTo(this.workbook, path.Name);
    return this.below(this.target(path.ParentObjectPathId ?? 0), path);
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
    if (parent.kind === "panes" && Name === "GetLocationOrNullObject") return this.frozenRows(parent.sheet);
    if (step === "worksheets GetActiveWorksheet") return { kind: "sheet", sheet: this.workbook.sheet("Outlets") };
    if (step === "application CreateWorkbook") return { kind: "new workbook", base64: String(first) };
    if (step === "workbook Worksheets") return { kind: "worksheets" };
    if (step === "workbook Names") return { kind: "names" };
    if (step === "workbook Application") return { kind: "application" };
    if (step === "worksheets []") return { kind: "sheet", sheet: this.workbook.sheet(String(first)) };
    if (step === "workbook GetSelectedRange") return this.selected();
    throw new Error(`The stand-in for Excel does not know the way ${step}`);
  }

  private frozenRows(sheet: FakeSheet): Target {
    const { frozenRows } = this.workbook;
    if (frozenRows === 0) return { kind: "nothing" };
    return { kind: "range", sheet, range: givenRange(`A1:XFD${frozenRows}`) };
  }

  private selected(): Target {
    if (this.workbook.selected === null) throw new FakeExcelError("InvalidSelection");
    const [, range = ""] = this.workbook.selected.split("!");
    return { kind: "range", sheet: this.workbook.sheet("Outlets"), range: givenRange(range) };
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
  if (target.kind === "names") return namedItems(workbook.names);
  if (target.kind === "sheet names") return namedItems({});
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

function carriedOut(workbook: FakeWorkbook, target: Target, action: RichAction): unknown {
  const [first] = action.ArgumentInfo?.Arguments ?? [];
  const step = `${target.kind} ${action.Name}`;
  if (/ (_KeepReference|_RemoveReference|SuspendApiCalculationUntilNextSync|Activate)$/.test(step)) return null;
  if (/ (_?Register|_?Unregister)/.test(step)) return null;
  if (target.kind === "range" && action.Name === "Select") return workbook.select(target.sheet, target.range);
  if (target.kind === "protection" && action.Name === "Unprotect") return workbook.unprotect(target.sheet);
  if (target.kind === "protection" && action.Name === "Protect") {
    target.sheet.protection = first as FakeSheet["protection"];
    return null;
  }
  if (target.kind === "range" && action.Name === "Formulas") {
    return workbook.enter(target.sheet, target.range, first as unknown[][]);
  }
  if (target.kind === "new workbook" && action.Name === "Open") return void workbook.opened.push(target.base64);
  if (target.kind === "page layout") return void workbook.printSetUp.push([action.Name, first]);
  throw new Error(`The stand-in for Excel cannot do ${step}`);
}

function answered(workbook: FakeWorkbook, resolver: Resolver, action: RichAction): unknown {
  const target = resolver.target(action.ObjectPathId);
  if (target.kind === "nothing") return null;
  if (action.ActionType === ACTION.instantiate) {
    return target.kind === "workbook" ? {} : pick(queried(workbook, target), ["Id", "_ReferenceId"]);
  }
  if (action.ActionType !== ACTION.query) return carriedOut(workbook, target, action) ?? null;
  const answer = queried(workbook, target);
  requireKnown(action.QueryInfo, answer);
  return answer;
}

function pick(answer: Answer, names: readonly string[]): Answer {
  return Object.fromEntries(Object.entries(answer).filter(([name]) => names.includes(name)));
}

/** Returns a function that answers the requests of office.js from a workbook. */
export function answerAsExcel(workbook: FakeWorkbook): (request: RichRequest) => Promise<object> {
  return async ({ Actions, ObjectPaths }) => {
    const resolver = new Resolver(workbook, ObjectPaths);
    const Results: object[] = [];
    for (const action of Actions) {
      try {
        Results.push({ ActionId: action.Id, Value: answered(workbook, resolver, action) });
      } catch (thrown) {
        const Code = thrown instanceof FakeExcelError ? thrown.code : "GeneralException";
        return { Error: { Code, Message: String(thrown), ActionIndex: Results.length }, Results };
      }
    }
    return { Results, ProcessedResults: [] };
  };
}
