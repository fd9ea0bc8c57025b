import { comparedAirflows, differsFromInputs } from "../checks/support/compared-airflows.js";
import { SAME_RATIO } from "../checks/thresholds.js";
import { findLists, readList } from "../lists/index.js";
import type { WorkbookSource } from "../source/index.js";
import { isSamePlace, mappingNames } from "./keep-mappings.js";
import { mappingOf, type ProposedList } from "./propose-columns.js";

/** How far the airflows of a sheet follow from what its columns are taken for. */
export interface Agreement {
  /** Rows that state an airflow and have the readings and the opening for one. */
  readonly compared: number;
  readonly agreeing: number;
  /** In words; "" where nothing can be compared. */
  readonly sentence: string;
  /** Whether so few follow that the columns are likely to hold something else: it is asked before it is kept. */
  readonly isDoubtful: boolean;
}

const NOTHING_TO_COMPARE: Agreement = { compared: 0, agreeing: 0, sentence: "", isDoubtful: false };

/** Fewer rows show nothing of the columns, only of themselves. Own choice. */
const LEAST_COMPARED = 2;

/** The ratio by which most of the others differ, where most of them do so by the same. */
function commonRatio(ratios: readonly number[]): number | undefined {
  const isLike = (one: number, other: number) => Math.abs(one / other - 1) < SAME_RATIO;
  return ratios.find((ratio) => ratios.filter((other) => isLike(ratio, other)).length * 2 > ratios.length);
}

/**
 * Calculates every airflow of a list from what its columns are taken for, and counts how many of the sheet's own are
 * the same: columns that were taken for something else show in this at once.
 */
export function agreementOf({ sheets }: Pick<WorkbookSource, "sheets">, proposal: ProposedList): Agreement {
  const mapping = mappingOf(proposal);
  if (mapping.columns.length === 0) return NOTHING_TO_COMPARE;
  const names = mappingNames([mapping]).map(({ name, refersTo }) => ({ name, refersTo, sheet: undefined }));
  const own = sheets.filter(({ name }) => name === proposal.sheet);
  const lists = findLists({ sheets: own, names }).value.filter(
    (list) => list.foundBy === "mapping" && isSamePlace(mapping, list),
  );
  const pairs = lists.flatMap((list) => readList(list, null).outlets).flatMap(comparedAirflows);
  const compared = pairs.filter(({ own: calculated }) => calculated !== 0);
  const others = compared.filter(differsFromInputs);
  if (compared.length === 0) return NOTHING_TO_COMPARE;
  const agreeing = compared.length - others.length;
  const isDoubtful = compared.length >= LEAST_COMPARED && agreeing * 2 < compared.length;
  const ratio = commonRatio(others.map(({ stated, own: calculated }) => stated / calculated));
  const most = ratio === undefined ? "" : ` Most others are ${Number(ratio.toPrecision(3))} times as large.`;
  const what = isDoubtful ? " Look for a column that holds something else." : "";
  return {
    compared: compared.length,
    agreeing,
    sentence: `${agreeing} of ${compared.length} airflows follow from these columns.${most}${what}`,
    isDoubtful,
  };
}
