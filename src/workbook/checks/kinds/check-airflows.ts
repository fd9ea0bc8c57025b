import { formatAddress } from "../../../xlsx/address.js";
import { AIRFLOW_KEYS, type ListedOutlet, rowFormula } from "../../lists/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import type { CheckedList } from "../listed/checked-lists.js";
import {
  type ComparedAirflow,
  causeOf,
  comparedAirflows,
  differsFromInputs,
  readingsLeftOut,
} from "../support/compared-airflows.js";
import { counted, type Draft, oneCell, shownNumber } from "../support/draft.js";
import type { Cause } from "../support/explain-difference.js";
import { FAR_ABOVE_DESIGN_RATIO, FAR_BELOW_DESIGN_RATIO, SAME_RATIO } from "../thresholds.js";

/** An airflow that no balance is so far off as to have. */
function farFromDesign({ sheet, list }: CheckedList, outlet: ListedOutlet): readonly Draft[] {
  const { design, measured, row } = outlet;
  if (design === null || measured === null || measured <= 0) return [];
  const share = measured / design;
  if (share <= FAR_ABOVE_DESIGN_RATIO && share >= FAR_BELOW_DESIGN_RATIO) return [];
  const key = outlet.left.flow !== null ? "left" : outlet.now.flow !== null ? "airflow" : "found";
  const column = list.columns.get(key) ?? list.columns.get("design") ?? 1;
  return [
    {
      kind: "airflow-far-from-design",
      severity: "warning",
      sheet,
      range: oneCell(row.row, column),
      problem: `The airflow is ${shownNumber(100 * share)} % of its design: ${shownNumber(measured)} for ${shownNumber(design)}.`,
      action:
        "Look whether a reading, the size, the factor or the design was mistyped. If all are right, say so in a note.",
    },
  ];
}

/** A call that takes an opening and its readings, and nothing around it that may correct its result. */
const FACE_CALL = /^(?:_xldudf_)?VANE[._]AIRFLOW[._]FACE\((?:[^()]|\([^()]*\))*\)$/i;

/**
 * Whether an airflow has to follow from the inputs of its row. Our sheets and those whose columns a person explained do;
 * in another list only a plain call does, since other formulas may correct for density.
 */
function mustFollow({ list }: CheckedList, formula: string | undefined): boolean {
  if (list.foundBy === "mapping") return true;
  return formula !== undefined && (list.form !== "own" || FACE_CALL.test(formula));
}

function comparedRows(checked: CheckedList): readonly ComparedAirflow[] {
  const { list } = checked;
  return checked.outlets.flatMap((outlet) =>
    comparedAirflows(outlet).filter(({ readings }) =>
      mustFollow(checked, rowFormula(list, outlet.row.row, AIRFLOW_KEYS[readings.state])),
    ),
  );
}

/** Rows below one another that are wrong in the same way are told once. */
interface Difference {
  readonly first: ComparedAirflow;
  readonly last: ComparedAirflow;
  readonly count: number;
  readonly cause: Cause | undefined;
}

const isSameRatio = (one: ComparedAirflow, other: ComparedAirflow) =>
  Math.abs((one.stated / one.own) * (other.own / other.stated) - 1) < SAME_RATIO;

function joinedDifferences(wrong: readonly ComparedAirflow[]): readonly Difference[] {
  const found: Difference[] = [];
  for (const compared of wrong) {
    const cause = causeOf(compared);
    const before = found.at(-1);
    const isNext =
      before !== undefined &&
      before.last.column === compared.column &&
      compared.outlet.row.row === before.last.outlet.row.row + 1 &&
      before.cause?.problem === cause?.problem &&
      isSameRatio(before.last, compared);
    if (isNext) found[found.length - 1] = { ...before, last: compared, count: before.count + 1 };
    else found.push({ first: compared, last: compared, count: 1, cause });
  }
  return found;
}

function explained({ sheet, list }: CheckedList, { first, last, count, cause }: Difference): Draft {
  const { stated, own, column, outlet } = first;
  const isTyped = !list.source.hasFormula(outlet.row.row, column);
  const more = count === 1 ? "" : ` The same in ${counted(count, "row")}.`;
  const why = cause === undefined ? "" : ` ${cause.problem}`;
  const ratio = cause === undefined ? ` It is ${shownNumber(stated / own)} times as large.` : "";
  const typed = isTyped ? " It was typed, so it no longer follows the readings." : "";
  return {
    kind: "result-not-from-inputs",
    severity: "error",
    lacksCause: cause === undefined && count === 1,
    sheet,
    range: { ...oneCell(outlet.row.row, column), lastRow: last.outlet.row.row },
    problem: `The airflow is ${shownNumber(stated)}, but the readings, size and factor of its own row give ${shownNumber(own)}.${why}${ratio}${typed}${more}`,
    action:
      cause?.action ??
      (isTyped
        ? "Put the formula of its column back, and correct the readings if its result is wrong."
        : "Copy the formula from a row whose airflow is right, and let the workbook calculate."),
  };
}

/** A reading that the row's own average leaves out, where the airflow hardly shows it. */
function leftOut({ sheet }: CheckedList, compared: ComparedAirflow): readonly Draft[] {
  const { stated, own, column, outlet } = compared;
  const columns = readingsLeftOut(compared);
  if (columns.length === 0) return [];
  const [whole, partial] = [shownNumber(own), shownNumber(stated)];
  const effect =
    whole === partial
      ? "It makes no difference that shows here, but may after the next reading."
      : `With all of them the airflow is ${whole}, not ${partial}.`;
  const cells = columns.map((one) => formatAddress(outlet.row.row, one)).join(", ");
  return [
    {
      kind: "result-not-from-inputs",
      severity: "error",
      sheet,
      range: oneCell(outlet.row.row, column),
      problem: `The average leaves out ${cells}, which ${columns.length === 1 ? "holds a reading" : "hold readings"}. ${effect}`,
      action: "Let the range reach over every reading.",
    },
  ];
}

/** Airflows of a list that cannot be: by the inputs of their own row, or by their design. */
export function checkAirflows(_index: WorkbookIndex, lists: readonly CheckedList[]): readonly Draft[] {
  return lists.flatMap((list) => {
    const compared = comparedRows(list);
    const wrong = compared.filter(differsFromInputs);
    const rows = new Set(wrong.map(({ outlet }) => outlet.row.row));
    return [
      ...joinedDifferences(wrong).map((difference) => explained(list, difference)),
      ...compared.filter((one) => !differsFromInputs(one)).flatMap((one) => leftOut(list, one)),
      ...list.outlets.filter(({ row }) => !rows.has(row.row)).flatMap((outlet) => farFromDesign(list, outlet)),
    ];
  });
}
