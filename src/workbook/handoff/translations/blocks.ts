import { UNCERTAINTY_DEFAULTS } from "../../../../shared/tables/uncertainty-defaults.js";
import { assumedBudget } from "../../../cells/assumed-budget.js";
import { type BlockText, blockText, pieceOf } from "../block-text.js";
import {
  allMissing,
  anyMissing,
  choose,
  EMPTY,
  inUnits,
  isOmitted,
  MISSING,
  needing,
  part,
  WRONG,
} from "../formula-text.js";
import { overReadings } from "../readings-text.js";
import type { CellArguments, Translation } from "../translation.js";
import { coverage } from "./coverage-text.js";
import { type LimitsText, limitsText, verdictText } from "./design.js";
import { areaScale, factorText, squareText } from "./openings.js";

/** The ± of an airflow by what its factor rests on, everything else being assumed [%]. */
const DOUBT_PERCENT = {
  assumed: assumedBudget("assumed", {}).expandedPercent,
  published: assumedBudget("published", {}).expandedPercent,
  open: assumedBudget("open", {}).expandedPercent,
};

/** Places of the results of an outlet. */
const RESULT = { area: 0, freeArea: 1, velocity: 2, airflow: 3, doubt: 4, percent: 5, verdict: 6 } as const;

/** The cells of one outlet, as formula text. */
interface OutletText {
  readonly width: string;
  readonly height: string;
  readonly factor: string;
  readonly design: string;
  readonly readings: BlockText;
  readonly velocity: string;
  readonly freeSquare: string;
  readonly limits: LimitsText;
  readonly units: string;
}

function outletText(call: CellArguments, row: number): OutletText {
  const { text, at } = call;
  const sizes = call.size("sizes");
  const [width, height] = [at("sizes", row, 0), heightText(call, row, sizes.columns)];
  const [factor, design, readings] = [at("factor", row, 0), at("design", row, 0), call.rowOf("readings", row)];
  const rowCall = { ...call, text: (name: string) => (name === "taken" ? takenText(call, row) : text(name)) };
  return {
    width,
    height,
    factor,
    design,
    readings,
    velocity: overReadings({ ...rowCall, isCountOf: () => false }, readings, ({ mean }) => mean),
    freeSquare: `${squareText(width, height)}*${factorText(factor)}`,
    limits: limitsText(text("minus"), text("plus")),
    units: text("units"),
  };
}

function heightText(call: CellArguments, row: number, sizeColumns: number): string {
  if (sizeColumns > 1) return call.at("sizes", row, 1);
  const { rows, columns } = call.size("heights");
  const isWord = rows === 1 && columns === 1 && /^"\s*round\s*"$/i.test(call.text("heights"));
  return isWord ? "" : call.at("heights", row, 0);
}

function takenText(call: CellArguments, row: number): string {
  return call.isGiven("taken") ? call.at("taken", row, 0) : "";
}

/** True where the row holds words and no number. */
function isHeading({ width, height, factor, design, readings }: OutletText): string {
  const singles = [width, height, factor, design].filter((text) => !isOmitted(text));
  const numbers = [part(readings.nonZero), part(blockText(singles.map(pieceOf), () => undefined).nonZero)];
  const words = [part(readings.holdsText), ...singles.map((text) => `ISTEXT(${text})*(LEN(${text})>0)`)];
  return `(${numbers.join("+")}=0)*(${words.join("+")}>0)`;
}

/** The airflow, or what is wrong in the row, in the place of which nothing else shows. */
function airflowText(outlet: OutletText): string {
  const { width, height, design, velocity, freeSquare, units, limits } = outlet;
  const scale = inUnits(units, "144", "1000");
  const noSize = choose(allMissing([height]), EMPTY, MISSING);
  const unread = choose(anyMissing([width]), noSize, `IF(ISNUMBER(${freeSquare}),${EMPTY},${freeSquare})`);
  const flow = `${velocity}*${freeSquare}/${scale}`;
  const designed = `IF(ISNUMBER(${design})*(${part(design)}>0),${flow},${WRONG})`;
  const read = choose(anyMissing([design]), flow, limits.checked(designed));
  return `IF(${isHeading(outlet)},${EMPTY},IF(${velocity}="",${unread},${read}))`;
}

/** What reading at a few points only adds to the ±, squared: one point is assumed, more tell it by their spread. */
function pointsText({ readings: { count, list } }: OutletText): string | null {
  if (list === undefined) return null;
  const spread = `${coverage(`${part(count)}-1`)}*STDEV(${list})/AVERAGE(${list})*100`;
  const many = `IF(AVERAGE(${list})=0,0,(${spread})^2/${part(count)})`;
  return `IF(${part(count)}<2,${(2 * UNCERTAINTY_DEFAULTS.onePoint.standardPercent) ** 2},${many})`;
}

function doubtText(outlet: OutletText, airflow: string): string | null {
  const { factor } = outlet;
  const points = pointsText(outlet);
  if (points === null) return null;
  const percent = choose(
    anyMissing([factor]),
    `${DOUBT_PERCENT.assumed}`,
    `IF(${part(factor)}<1,${DOUBT_PERCENT.published},${DOUBT_PERCENT.open})`,
  );
  return `ABS(${airflow})*SQRT((${percent})^2+${points})/100`;
}

function outletResult(call: CellArguments, row: number, column: number): string | null {
  const outlet = outletText(call, row);
  const { width, height, factor, design, units, limits } = outlet;
  if (column === RESULT.airflow) return airflowText(outlet);
  const airflow = part(call.shown(row, RESULT.airflow) ?? airflowText(outlet));
  const sized = (result: string) =>
    `IF(ISERROR(${airflow}),${EMPTY},IF(${isHeading(outlet)},${EMPTY},${choose(anyMissing([width]), EMPTY, result)}))`;
  const read = (result: string) => `IF(ISERROR(${airflow}),${EMPTY},IF(${airflow}="",${EMPTY},${result}))`;
  const compared = (result: string) => read(choose(anyMissing([design]), EMPTY, result));
  switch (column) {
    case RESULT.area:
      return sized(`${squareText(width, height)}/${areaScale(units)}`);
    case RESULT.freeArea:
      return sized(`${squareText(width, height)}*${factorText(factor)}/${areaScale(units)}`);
    case RESULT.velocity:
      return read(outlet.velocity);
    case RESULT.doubt: {
      const doubt = doubtText(outlet, airflow);
      return doubt === null ? null : read(doubt);
    }
    case RESULT.percent:
      return compared(`${airflow}/${part(design)}*100`);
    default:
      return compared(verdictText(airflow, part(design), limits.minus, limits.plus));
  }
}

/** Measured over design of one outlet; a 0 counts where `taken` says that every one was measured. */
function ratioText(call: CellArguments, row: number, column: number): string {
  const [m, d, taken] = [call.at("measured", row, column), call.at("design", row, column), call.text("taken")];
  const [measured, design] = [call.block("measured"), call.block("design")];
  const ratio = `IF(ISNUMBER(${m}),${part(m)}/${part(d)},${WRONG})`;
  const known = (whenZero: string) =>
    choose(allMissing([m, d]), EMPTY, needing([[d, "above 0"]], choose(anyMissing([m]), whenZero, ratio)));
  if (isOmitted(taken)) return known(EMPTY);
  const [mAll, dAll] = [measured, design].map(({ pieces }) => pieces.map(({ text }) => part(text)));
  const zeros = (mAll ?? []).map((all, index) => {
    const designs = dAll?.[index] ?? "";
    return `SUMPRODUCT(((${all}=0)+(${all}="")>0)*(${designs}<>0)*(${designs}<>""))`;
  });
  const [t, r, z] = [part(taken), part(measured.nonZero), part(zeros.join("+"))];
  return `IF((${t}=${r})+(${t}=${r}+${z}),${known(`IF(${t}=${r},${EMPTY},0)`)},${WRONG})`;
}

export const BLOCKS: Readonly<Record<string, Translation>> = {
  "SHEET.OUTLETS": { kind: "cells", rowsOf: "readings", columns: 7, build: outletResult },
  "BALANCE.RATIO": { kind: "cells", rowsOf: "measured", columns: "same", build: ratioText },
};
