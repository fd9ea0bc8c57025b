import { useLayoutEffect, useRef } from "preact/hooks";
import { airflowUnit, type OutletRow, velocityUnit } from "../../workbook/index.js";
import { fixedFigure } from "../controls/shown-figure.js";
import { TextField } from "../controls/text-field.js";
import { usePane } from "../shell/pane-context.js";
import { readTypedReadings } from "./read-typed-readings.js";

interface ReadingFormProps {
  readonly outlet: OutletRow;
  readonly typed: string;
  readonly onTyped: (text: string) => void;
  readonly onReadings: (readings: readonly number[]) => void;
  /** Whether what stands in the sheet goes to its cells before, and is not lost. */
  readonly isKept: boolean;
  /** Whether what stands in the sheet has no cells to go to. */
  readonly isLost: boolean;
  /** Whether a further reading is averaged with what the sheet has. */
  readonly isAverage: boolean;
  /** Whether the field takes the focus as it moves on to another outlet. */
  readonly takesFocus: boolean;
  /** Whether readings are on their way into the sheet: what is typed meanwhile stays for the outlet that is next. */
  readonly isEntering: boolean;
}

const KEPT = "Current readings move to the as-found columns.";
const LOST = "There is no free as-found column: note the old reading first if you need it.";

/** One field for what the meter shows at an outlet; Enter writes it into the sheet. */
export function ReadingForm({
  outlet,
  typed,
  onTyped,
  onReadings,
  isKept,
  isLost,
  isAverage,
  takesFocus,
  isEntering,
}: ReadingFormProps) {
  const { job } = usePane();
  const form = useRef<HTMLFormElement>(null);
  const most = outlet.entryCells.length;
  const read = typed.trim() === "" ? null : readTypedReadings(typed, most);
  const isVelocity = outlet.entry === "velocities";
  const si = job.details.units === "si";
  const unit = isVelocity ? velocityUnit(job.details.units) : airflowUnit(job.details.units);
  const mean =
    read !== null && "values" in read ? read.values.reduce((sum, one) => sum + one, 0) / read.values.length : null;

  useLayoutEffect(() => {
    if (takesFocus) form.current?.querySelector("input")?.focus();
  }, [outlet.id, takesFocus]);

  function onSubmit(event: Event): void {
    event.preventDefault();
    if (!isEntering && read !== null && "values" in read) onReadings(read.values);
  }

  if (most === 0) {
    return (
      <p class="vs-flag">
        “{outlet.sheet}” takes no readings here. Type them there, or select the outlet's row and take them on the tab
        Measure; the advice goes on with the airflow that the sheet then shows.
      </p>
    );
  }
  return (
    <form ref={form} onSubmit={onSubmit}>
      <TextField
        label={`${isVelocity ? "Readings" : "Airflow"} at ${outlet.name}`}
        value={typed}
        unit={unit}
        inputMode="text"
        onInput={onTyped}
        error={read !== null && "error" in read ? read.error : null}
        understood={
          read !== null && "values" in read && read.values.length > 1 && mean !== null
            ? `${read.values.length} readings, average ${fixedFigure(mean, si ? 2 : 0)} ${unit}`
            : null
        }
        hint={
          isAverage
            ? "It is averaged with the readings already there."
            : isVelocity && most > 1
              ? `Up to ${most} over the grille, with a space between. A single reading is fine while adjusting. ${isKept ? KEPT : `New readings replace the old.${isLost ? ` ${LOST}` : ""}`}`
              : isKept
                ? KEPT
                : `It replaces the reading there.${isLost ? ` ${LOST}` : ""}`
        }
      />
      <button
        type="submit"
        class="vs-button vs-main"
        disabled={read === null || "error" in read}
        aria-disabled={isEntering}
      >
        Enter readings
      </button>
    </form>
  );
}
