import { ASSUMED_FREE_AREA } from "../../../shared/tables/assumed-free-area.js";
import type { KnownOpening } from "../../workbook/index.js";
import { areaUnit, lengthUnit } from "../../workbook/index.js";
import { figure, preciseFigure } from "../controls/shown-figure.js";
import type { MeasureDraft } from "./measure-draft.js";
import type { DraftField } from "./measure-reducer.js";

type Units = KnownOpening["units"];

const shown = (length: number | null) => (length === null ? "" : figure(length));

const ASSUMED = ASSUMED_FREE_AREA.metal.freeAreaRatio;

function sizeWords({ shape, width, height, units }: KnownOpening): readonly string[] {
  const unit = lengthUnit(units);
  if (shape === null) return [];
  if (shape === "round") return [`${shown(width)} ${unit} round`];
  return [width === null ? `height ${shown(height)} ${unit}, no width` : `${shown(width)} × ${shown(height)} ${unit}`];
}

function factorWords({ factor, factorIs, effectiveArea }: KnownOpening, units: Units): readonly string[] {
  if (effectiveArea !== null) return [`effective area ${preciseFigure(effectiveArea, 6)} ${areaUnit(units)}`];
  if (factorIs === null) return [];
  return [`factor ${figure(factor ?? ASSUMED)}${factorIs === "assumed" ? " (assumed)" : ""}`];
}

/** Another assumed figure than the pane's would pass for a published one, or give another airflow than the row's. */
const isOtherAssumed = ({ factor, factorIs, effectiveArea }: KnownOpening) =>
  effectiveArea === null && factorIs === "assumed" && factor !== null && factor !== ASSUMED;

/**
 * Says in one line what the selected row knows: “Row 12, S2: 14 × 6 in, factor 0.75 (assumed).”
 *
 * @param units - In which the job is measured
 */
export function openingWords(opening: KnownOpening, units: Units): string {
  const { row, name, findings } = opening;
  const place = name === "" ? `Row ${row}` : `Row ${row}, ${name}`;
  const known = [...sizeWords(opening), ...factorWords(opening, units)].join(", ");
  const sentences = [
    ...(known === "" ? [] : [`${known}.`]),
    ...(isOtherAssumed(opening) ? [`Factor not copied; ${figure(ASSUMED)} is used unless you enter one.`] : []),
    ...findings,
  ];
  return `${place}: ${sentences.join(" ")}`;
}

type Changes = Partial<Pick<MeasureDraft, DraftField>>;

function factorChanges(opening: KnownOpening): Changes {
  const { factor, factorIs, effectiveArea } = opening;
  if (effectiveArea !== null)
    return {
      kind: "face",
      factorBasis: "effective area",
      effectiveArea: preciseFigure(effectiveArea, 12),
    };
  if (factorIs === null || isOtherAssumed(opening)) return {};
  // Where nothing stands in the opening, a duct and a face are the same.
  if (factor === 1) return { factorBasis: "open" };
  if (factorIs === "assumed" || factor === null) return { kind: "face", factorBasis: "unknown" };
  return { kind: "face", factorBasis: "published", factor: figure(factor) };
}

/**
 * Returns what would be typed for the opening of a row; what the row does not say is left out.
 *
 * @param units - In which the job is measured; sizes in other units are typed with theirs
 * @param measured - Where the outlet of the row is measured, null where the row does not tell
 */
export function openingChanges(opening: KnownOpening, units: Units, measured: "duct" | "face" | null): Changes {
  const { shape, width, height } = opening;
  const typed = (length: number) =>
    opening.units === units ? figure(length) : `${figure(length)} ${lengthUnit(opening.units)}`;
  return {
    ...(shape === null ? {} : { shape }),
    ...(width === null ? {} : { width: typed(width) }),
    ...(height === null ? {} : { height: typed(height) }),
    ...(measured === null ? {} : { kind: measured }),
    ...factorChanges(opening),
  };
}
