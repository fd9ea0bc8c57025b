import { type CellRange, formatRange, parseAddress, parseRange } from "../address.js";
import type { ByteRange } from "../xml/read-xml.js";
import { readXml } from "../xml/read-xml.js";
import type { Splice } from "../xml/splice.js";
import { changeFormula, changeSharedFormula, type SheetsBetween } from "./change-formula.js";
import { type ElementChange, type OpenElement, partSplices } from "./rewrite-part.js";
import {
  grownSpan,
  isTorn,
  movedRow,
  movedSpan,
  movedSpans,
  type RowChange,
  type RowSpan,
  ruledSpan,
} from "./row-change.js";

/** What the elements around a sheet's cells have to know. */
export interface RestContext {
  readonly sheet: string;
  readonly change: RowChange;
  readonly between: SheetsBetween;
  /** Told of what cannot follow: what it is, and the formula. */
  readonly stuck: (what: string, formula: string) => void;
  /** Merged blocks of one row that new rows are to have too. */
  readonly mergedAgain: readonly CellRange[];
  /** Prefix of the part's elements with its colon, "" for none. */
  readonly prefix: string;
}

/** Elements that hold a rule for the cells of an attribute or an element `sqref`. */
const RULED = new Set(["dataValidation", "conditionalFormatting", "sparkline", "ignoredError", "protectedRange"]);
const RULE_NAMES: Readonly<Record<string, string>> = {
  dataValidation: "rule on input",
  conditionalFormatting: "conditional format",
  sparkline: "sparkline",
};
const FORMULAS = new Set(["f", "formula", "formula1", "formula2"]);

/** Attributes that hold one block of cells, which goes with its element. */
const BLOCKS: Readonly<Record<string, string>> = {
  mergeCell: "ref",
  hyperlink: "ref",
  cellWatch: "r",
  inputCells: "r",
  webPublishItem: "sourceRef",
};
/** Attributes that hold a block that grows with its list. */
const LISTS = new Set(["autoFilter", "sortState", "sortCondition"]);

const spanOf = ({ firstRow, lastRow }: CellRange): RowSpan => ({ first: firstRow, last: lastRow });

function placed(range: CellRange, span: RowSpan | undefined): string | undefined {
  return span && formatRange({ ...range, firstRow: span.first, lastRow: span.last });
}

/** Blocks separated by spaces; undefined where none is left. Whole columns and what is no block stay as they are. */
function blocksAfter(text: string, moved: (span: RowSpan) => readonly RowSpan[]): string | undefined {
  const blocks = text.trim().split(/\s+/);
  const after = blocks.flatMap((block) => {
    const range = parseRange(block);
    return range === undefined ? [block] : moved(spanOf(range)).flatMap((span) => placed(range, span) ?? []);
  });
  if (after.join(" ") === blocks.join(" ")) return text;
  return after.length === 0 ? undefined : after.join(" ");
}

/** The cells of each element that holds a rule, in the order of the part. */
function ruledCells(bytes: Uint8Array, place: string, skipped: ByteRange | undefined): readonly string[] {
  const cells: string[] = [];
  const open: number[] = [];
  let isInside = false;
  readXml(
    bytes,
    place,
    {
      open(name, attributes) {
        if (RULED.has(name)) open.push(cells.push(attributes["sqref"] ?? "") - 1);
        isInside = name === "sqref";
      },
      text(chunk) {
        const at = open.at(-1);
        if (isInside && at !== undefined) cells[at] += chunk;
      },
      close(name) {
        isInside = false;
        if (RULED.has(name)) open.pop();
      },
    },
    skipped,
  );
  return cells;
}

function bounds(sqref: string): RowSpan | undefined {
  const ranges = sqref
    .trim()
    .split(/\s+/)
    .map(parseRange)
    .filter((range) => range !== undefined);
  if (ranges.length === 0) return undefined;
  const rows = ranges.flatMap(({ firstRow, lastRow }) => [firstRow, lastRow]);
  return { first: Math.min(...rows), last: Math.max(...rows) };
}

/** Rewrites what a sheet's part holds beside its cells: rules, merged blocks, views, breaks, links, extensions. */
export function restSplices(
  bytes: Uint8Array,
  place: string,
  context: RestContext,
  skipped: ByteRange | undefined,
): readonly Splice[] {
  const { sheet, change, between } = context;
  const isOwn = sheet.toLowerCase() === change.sheet.toLowerCase();
  const cells = ruledCells(bytes, place, skipped);
  const ruleOf = new Map<OpenElement, { readonly name: string; readonly sqref: string }>();
  let rules = 0;

  const around = (element: OpenElement): { readonly name: string; readonly sqref: string } | undefined => {
    for (let one: OpenElement | undefined = element; one !== undefined; one = one.parent) {
      const rule = ruleOf.get(one);
      if (rule !== undefined) return rule;
    }
    return undefined;
  };
  const movedBy = (name: string) => (span: RowSpan) => {
    if (name === "sparkline" || change.order !== undefined) return movedSpans(change, span);
    const ruled = ruledSpan(change, span);
    return ruled === undefined ? [] : [ruled];
  };

  function formula(element: OpenElement, text: string): string {
    const rule = around(element);
    const span = rule && bounds(rule.sqref);
    if (rule === undefined || span === undefined) {
      const { text: changed, stuck } = changeFormula(text, { sheet, row: undefined }, change, between);
      if (stuck) context.stuck("a place", text);
      return changed;
    }
    const after = isOwn ? bounds(blocksAfter(rule.sqref, movedBy(rule.name)) ?? "") : span;
    if (after === undefined) return text;
    const isCell = rule.name === "sparkline";
    const { text: changed, stuck } = isCell
      ? changeFormula(text, { sheet, row: span.first }, change, between)
      : changeSharedFormula(text, span, after, sheet, change, between);
    if (stuck) context.stuck(`the ${RULE_NAMES[rule.name] ?? "rule"} of ${rule.sqref.trim()}`, text);
    return changed;
  }

  function formulaAttributes(element: OpenElement, names: readonly string[]): Record<string, string> {
    const given = names.flatMap((name) => {
      const text = element.attributes[name];
      return text === undefined ? [] : [[name, formula(element, text)] as const];
    });
    return Object.fromEntries(given);
  }

  function visit(element: OpenElement): ElementChange | undefined {
    const { name, attributes, parent } = element;
    if (RULED.has(name)) {
      const sqref = cells[rules] ?? "";
      rules += 1;
      ruleOf.set(element, { name, sqref });
    }
    if (FORMULAS.has(name)) return { text: (text) => formula(element, text) };
    if (name === "cfvo" && Number.isNaN(Number(attributes["val"] ?? 0))) {
      return { attributes: formulaAttributes(element, ["val"]) };
    }
    if (name === "controlPr") return { attributes: formulaAttributes(element, ["linkedCell", "listFillRange"]) };
    if (name === "hyperlink" && !isOwn) return { attributes: formulaAttributes(element, ["location"]) };
    if (!isOwn) return undefined;
    if (RULED.has(name)) {
      const after = blocksAfter(ruleOf.get(element)?.sqref ?? "", movedBy(name));
      if (after === undefined) return "remove";
      return attributes["sqref"] === undefined ? undefined : { attributes: { sqref: after } };
    }
    const rule = around(element);
    if (name === "sqref") return { text: (text) => blocksAfter(text, movedBy(rule?.name ?? "")) ?? text };
    return ownChange(element, parent, formulaAttributes);
  }

  function ownChange(
    element: OpenElement,
    parent: OpenElement | undefined,
    formulas: (element: OpenElement, names: readonly string[]) => Record<string, string>,
  ): ElementChange | undefined {
    const { name, attributes } = element;
    const block = BLOCKS[name];
    if (block !== undefined) {
      const range = parseRange(attributes[block] ?? "");
      if (range === undefined) return undefined;
      if (isTorn(change, spanOf(range))) context.stuck(attributes[block] ?? "", name);
      const after = placed(range, movedSpan(change, spanOf(range)));
      const isMergeOfOne = name === "mergeCell" && parseAddress(after ?? "") !== undefined;
      if (after === undefined || isMergeOfOne) return "remove";
      const links = name === "hyperlink" ? formulas(element, ["location"]) : {};
      return { attributes: { [block]: after, ...links } };
    }
    if (name === "mergeCells") return context.mergedAgain.length === 0 ? undefined : { append: mergesAgain(context) };
    if (LISTS.has(name)) {
      const range = parseRange(attributes["ref"] ?? "");
      const after = range && placed(range, grownSpan(change, spanOf(range)));
      return range === undefined ? undefined : after === undefined ? "remove" : { attributes: { ref: after } };
    }
    if (name === "scenarios") {
      const after = blocksAfter(attributes["sqref"] ?? "", (span) => movedSpans(change, span));
      return attributes["sqref"] === undefined ? undefined : { attributes: { sqref: after } };
    }
    if (name === "dimension") return { attributes: { ref: dimensionAfter(attributes["ref"] ?? "", change) } };
    // What is in view, and where pages end, has to do with places and not with what is in them.
    if (change.order !== undefined) return undefined;
    if (name === "pane" || name === "selection") return viewChange(element, change);
    if (name === "brk" && parent?.name === "rowBreaks") return breakAfter(Number(attributes["id"]), change);
    if (name === "row" && (parent?.name === "from" || parent?.name === "to")) {
      return { text: (text) => String((movedRow(change, Number(text) + 1) ?? change.at) - 1) };
    }
    return undefined;
  }

  return partSplices(bytes, place, visit, skipped);
}

function mergesAgain({ mergedAgain, prefix }: RestContext): { readonly xml: string; readonly count: number } {
  const xml = mergedAgain.map((range) => `<${prefix}mergeCell ref="${formatRange(range)}"/>`).join("");
  return { xml, count: mergedAgain.length };
}

function dimensionAfter(ref: string, change: RowChange): string {
  const range = parseRange(ref);
  if (range === undefined) return ref;
  const span = ruledSpan(change, spanOf(range)) ?? { first: range.firstRow, last: range.firstRow };
  return placed(range, span) ?? ref;
}

/** A break comes after the row of its number. */
function breakAfter(id: number, change: RowChange): ElementChange | undefined {
  if (!Number.isInteger(id)) return undefined;
  const row = id < change.at ? id : (movedRow(change, id) ?? change.at - 1);
  return row < 1 ? "remove" : { attributes: { id: String(row) } };
}

/** Frozen rows stay frozen, with what comes among them; what was selected stays selected. */
function viewChange({ name, attributes }: OpenElement, change: RowChange): ElementChange | undefined {
  const { at, inserted, deleted } = change;
  if (name === "selection") {
    const active = parseRange(attributes["activeCell"] ?? "");
    const row = active === undefined ? undefined : (movedRow(change, active.firstRow) ?? at);
    const activeCell =
      row === undefined ? undefined : active && formatRange({ ...active, firstRow: row, lastRow: row });
    const sqref = attributes["sqref"];
    const kept =
      sqref === undefined ? undefined : (blocksAfter(sqref, (span) => movedSpans(change, span)) ?? activeCell);
    return {
      attributes: {
        ...(activeCell === undefined ? {} : { activeCell }),
        ...(kept === undefined ? {} : { sqref: kept }),
      },
    };
  }
  const rows = Number(attributes["ySplit"] ?? 0);
  const isFrozen = attributes["state"] === "frozen" || attributes["state"] === "frozenSplit";
  const topLeft = parseRange(attributes["topLeftCell"] ?? "");
  if (!isFrozen || !Number.isInteger(rows) || at > rows) return undefined;
  const more = deleted > 0 ? -Math.min(deleted, rows - at + 1) : inserted;
  const first = Math.max(1, (topLeft?.firstRow ?? 1) + more);
  const cell = topLeft && formatRange({ ...topLeft, firstRow: first, lastRow: first });
  const left = rows + more;
  if (left <= 0) return undefined;
  return { attributes: { ySplit: String(left), ...(cell === undefined ? {} : { topLeftCell: cell }) } };
}
