import type { UnitSystemName } from "../../core/index.js";
import { shownText } from "../source/index.js";
import { type ListColumnKey, OUTLET_KINDS, type OutletKind } from "./columns.js";
import { KIND_WORDS } from "./kind-words.js";
import { hasRowFormula, type ListRow, rowCell } from "./list-rows.js";
import type { ListedOutlet, RowOpening } from "./listed-outlet.js";
import type { OutletList } from "./outlet-list.js";
import { readSize } from "./read-size.js";
import { addFinding, numberOf, quoted, type RowReader, spelledHeading, textOf } from "./row-reader.js";
import { AIRFLOW_KEYS, stateAirflow } from "./state-airflow.js";

/** A number beyond it, in the unit of the row, is a slip of the hand. Chosen by us, no source. */
const LARGEST_AIRFLOW = 10_000_000;
/** A number that was looked at before, and its issue told. */
function rowNumber({ list, row }: RowReader, key: ListColumnKey): number | null {
  const cell = rowCell(list, row, key);
  return cell.kind === "number" && cell.value >= 0 ? cell.value : null;
}

const AIRFLOW = { least: -LARGEST_AIRFLOW, most: LARGEST_AIRFLOW };
const NOT_NEGATIVE = { least: 0, most: LARGEST_AIRFLOW };
const RATIO = { least: 0, most: 1 };

/** 0 stands for "not given" in a size, a factor and a design, as it does in every cell function. */
const given = (value: number | null) => (value === 0 ? null : value);

/** Columns that say what another one would say. */
const SAID_ELSEWHERE: Readonly<Partial<Record<ListColumnKey, readonly ListColumnKey[]>>> = {
  width: ["size", "diameter"],
  height: ["size", "diameter"],
  effectiveArea: ["freeArea", "area"],
  freeArea: ["effectiveArea", "area"],
};

/** The column of a list that tells what one would tell, itself or another. */
function columnSaying({ columns }: OutletList, key: ListColumnKey): number | undefined {
  const own = columns.get(key);
  if (own !== undefined) return own;
  const other = SAID_ELSEWHERE[key]?.find((one) => columns.has(one));
  return other === undefined ? undefined : columns.get(other);
}

/** Reads "ip" or "si", in any case; null for anything else. */
export function unitSystemIn(text: string): UnitSystemName | null {
  const word = text.toLowerCase();
  return word === "ip" || word === "si" ? word : null;
}

function readUnits(reader: RowReader, job: UnitSystemName | null): UnitSystemName | null {
  const { list, row } = reader;
  const cell = rowCell(list, row, "units");
  if (cell.kind === "blank" || cell.kind === "not calculated") return job;
  const units = unitSystemIn(shownText(cell));
  if (units === null) {
    const shown = cell.kind === "error" ? cell.value : quoted(shownText(cell));
    addFinding(reader, "units", "outlet", "units", `Units say “${shown}”.`, "Write ip or si.");
    return null;
  }
  if (job !== null && job !== units && hasRowFormula(list, row, "units")) {
    const problem = `Units show ${units}, but the sheet of job details says ${job}.`;
    addFinding(reader, "units", "outlet", "units", problem, "Let the workbook calculate, and save it.");
  }
  return units;
}

/** Says that nobody states the units of a row with figures; its headings may. */
function requireUnits(reader: RowReader, unitsOf: ListedOutlet["unitsOf"]): void {
  const keys = ["design", "airflow", "found", "left"] as const;
  const isStated = keys.every((key) => !reader.list.columns.has(key) || unitsOf(key) !== null);
  if (isStated || reader.findings.some(({ kind }) => kind === "units")) return;
  const problem = "Neither the row nor the sheet of job details says whether its figures are in cfm (ip) or L/s (si).";
  addFinding(reader, "units", "outlet", "units", problem, "Say it there.");
}

/** In a sheet of one's own a kind may be written as people do: SA, Zuluft. */
const isOwnWord = ({ foundBy }: OutletList, kind: OutletKind, word: string) =>
  foundBy === "mapping" && KIND_WORDS[kind].includes(word);

function readKind(reader: RowReader, text: string): OutletKind | null {
  const word = text.toLowerCase();
  const kind = OUTLET_KINDS.find((known) => known === word || isOwnWord(reader.list, known, word));
  if (kind !== undefined || !reader.list.columns.has("kind")) return kind ?? null;
  const said = text === "" ? "The kind is not given" : `The kind says “${quoted(text)}”`;
  addFinding(reader, "unknown-kind", "nothing", "kind", `${said}.`, `Choose one of: ${OUTLET_KINDS.join(", ")}.`);
  return null;
}

function readDesign(reader: RowReader): number | null {
  const design = numberOf(reader, "design", NOT_NEGATIVE, "outlet");
  if (design !== 0) return design;
  const problem = `${spelledHeading(reader.list, "design")} is 0.`;
  addFinding(reader, "out-of-range", "nothing", "design", problem, "Enter a design above 0, or clear the cell.");
  return null;
}

function readFactorIs(reader: RowReader, factor: number | null): ListedOutlet["factorIs"] {
  const word = textOf(reader, "assumed").toLowerCase();
  const isAssumed = word === "assumed" || word === "yes";
  const isSaid = isAssumed || word === "given" || word === "no";
  if (factor === null && !isAssumed) return null;
  return isSaid && isAssumed ? "assumed" : "given";
}

type Opening = Pick<RowOpening, "width" | "height" | "area" | "freeArea" | "factor" | "isUnclear">;

/** A free area that is calculated counts only where its row says no size: the size is what was measured. */
function readOpening(reader: RowReader, units: UnitSystemName | null): Opening {
  const before = reader.findings.length;
  const size = readSize(reader, units);
  const area = given(numberOf(reader, "area", NOT_NEGATIVE, "nothing"));
  const factor = given(numberOf(reader, "factor", RATIO, "nothing"));
  const effective = given(numberOf(reader, "effectiveArea", NOT_NEGATIVE, "nothing"));
  const free = given(numberOf(reader, "freeArea", NOT_NEGATIVE, "nothing"));
  const isTyped = !hasRowFormula(reader.list, reader.row, "freeArea");
  const freeArea = effective ?? (isTyped || size.width === null ? free : null);
  return { ...size, area, factor, freeArea, isUnclear: reader.findings.length > before };
}

/** Actual over shown velocity, as a thermal meter needs it. */
function readVelocityFactor(reader: RowReader): number | null {
  return reader.list.columns.has("velocityFactor")
    ? given(numberOf(reader, "velocityFactor", NOT_NEGATIVE, "outlet"))
    : 1;
}

/** What stands beside a reading that is older than the last change. */
export const OLD_READING = "old";

/** The cell of what a state has beside its airflow: that of the last state that was measured. */
function lastKey(
  list: OutletList,
  left: number | null,
  found: number | null,
  [one, asLeft, asFound]: readonly [ListColumnKey, ListColumnKey, ListColumnKey],
): ListColumnKey {
  if (left !== null && list.columns.has(asLeft)) return asLeft;
  if (left === null && found !== null && list.columns.has(asFound)) return asFound;
  return one;
}

/**
 * Reads one row of a list.
 *
 * @param units - What the job states; null where it does not say
 */
export function readListedOutlet(list: OutletList, row: ListRow, units: UnitSystemName | null): ListedOutlet {
  const reader: RowReader = { list, row: row.row, findings: [] };
  const rowUnits = readUnits(reader, units);
  const unitsOf = (key: ListColumnKey): UnitSystemName | null =>
    list.columnUnits.get(columnSaying(list, key) ?? 0) ?? rowUnits;
  requireUnits(reader, unitsOf);
  const design = readDesign(reader);
  const opening = readOpening(reader, unitsOf("width"));
  const sized: RowOpening = {
    ...opening,
    units: rowUnits,
    velocityFactor: readVelocityFactor(reader),
    sizeUnits: unitsOf("width"),
    areaUnits: unitsOf("effectiveArea"),
    flowUnits: (state) => unitsOf(AIRFLOW_KEYS[state]),
  };
  const found = stateAirflow(reader, "found", AIRFLOW, sized);
  const left = stateAirflow(reader, "left", AIRFLOW, sized);
  const now = stateAirflow(reader, "now", AIRFLOW, sized);
  const tag = textOf(reader, "outlet");
  if (tag === "") {
    addFinding(
      reader,
      "no-outlet-tag",
      "nothing",
      "outlet",
      "The row has figures but no outlet. It counts.",
      "Give it its tag.",
    );
  }
  const kindText = textOf(reader, "kind");
  const key = (keys: readonly [ListColumnKey, ListColumnKey, ListColumnKey]) =>
    lastKey(list, left.flow ?? now.flow, found.flow, keys);
  const percentKey = key(["percent", "leftPercent", "foundPercent"]);
  const verdictKey = key(["verdict", "leftVerdict", "foundVerdict"]);
  return {
    list,
    row,
    tag,
    system: textOf(reader, "system"),
    branch: textOf(reader, "branch"),
    room: textOf(reader, "room"),
    kind: readKind(reader, kindText),
    kindText,
    units: rowUnits,
    unitsOf,
    width: opening.width,
    height: opening.height,
    factor: opening.factor,
    factorIs: readFactorIs(reader, opening.factor),
    freeArea: opening.freeArea ?? given(rowNumber(reader, "freeArea")),
    opening: sized,
    design,
    now,
    found,
    left,
    measured: left.flow ?? now.flow ?? found.flow,
    doubtPercent: numberOf(reader, "doubt", NOT_NEGATIVE, "nothing"),
    plusMinus: numberOf(reader, key(["plusMinus", "leftPlusMinus", "foundPlusMinus"]), NOT_NEGATIVE, "nothing"),
    percent: rowCell(list, row.row, percentKey),
    percentColumn: list.columns.get(percentKey),
    verdict: textOf(reader, verdictKey),
    verdictColumn: list.columns.get(verdictKey),
    foundVerdict: textOf(reader, "foundVerdict"),
    foundPlusMinus: rowNumber(reader, "foundPlusMinus"),
    jobId: textOf(reader, "jobId"),
    jobName: textOf(reader, "jobName"),
    technician: textOf(reader, "technician"),
    date: rowCell(list, row.row, "date"),
    note: textOf(reader, "note"),
    isOld: textOf(reader, "age").toLowerCase() === OLD_READING,
    findings: reader.findings,
  };
}
