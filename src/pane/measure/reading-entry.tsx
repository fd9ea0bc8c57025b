import { useId, useLayoutEffect, useRef } from "preact/hooks";
import { velocityUnit } from "../../workbook/index.js";
import { describedBy } from "../controls/described-by.js";
import type { MeasureProps } from "./measure-props.js";
import { pointWords } from "./point-words.js";
import { readReading } from "./reading-text.js";
import type { PointPlan } from "./understood-plan.js";

interface ReadingEntryProps extends MeasureProps {
  readonly points: PointPlan;
  readonly current: number;
}

/** One field for all readings: Enter takes the number and lights the next point. */
export function ReadingEntry({ draft, dispatch, job, points, current }: ReadingEntryProps) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const read = readReading(draft.typed);
  const error = "error" in read ? read.error : null;
  const { keys } = points;
  const where = pointWords(points, current, draft.kind, job.units);
  const go = (place: number) => dispatch({ type: "go", keys, place });

  // At once, before the next key: what stands at the point that was just reached is selected, so that typing replaces it.
  useLayoutEffect(() => {
    if (document.activeElement === input.current) input.current?.select();
  }, [current]);

  function onKeyDown(event: KeyboardEvent): void {
    const isBack = event.key === "ArrowUp" || (event.key === "Backspace" && draft.typed === "");
    const isForward = event.key === "Enter" || event.key === "ArrowDown";
    if (!isBack && !isForward) return;
    event.preventDefault();
    if (isForward) go(current + 1);
    else if (current > 0) go(current - 1);
  }

  return (
    <div class="vs-field vs-reading">
      <label for={id}>
        Point {current + 1} of {keys.length}
        <span class="vs-where">{where}</span>
      </label>
      <div class="vs-input-row">
        <input
          id={id}
          ref={input}
          class="vs-input vs-large"
          type="text"
          inputMode="text"
          autocomplete="off"
          enterkeyhint="next"
          value={draft.typed}
          onInput={(event) => dispatch({ type: "typed", text: event.currentTarget.value })}
          onKeyDown={onKeyDown}
          onBlur={() => go(current)}
          aria-invalid={error === null ? undefined : "true"}
          aria-describedby={describedBy({ [`${id}-error`]: error, [`${id}-unit`]: true, [`${id}-hint`]: true })}
        />
        <span class="vs-unit" id={`${id}-unit`}>
          {velocityUnit(job.units)}
        </span>
        <button type="button" class="vs-button" disabled={current === 0} onClick={() => go(current - 1)}>
          Back
        </button>
      </div>
      {error !== null && (
        <p class="vs-error" id={`${id}-error`}>
          {error}
        </p>
      )}
      <p class="vs-hint" id={`${id}-hint`}>
        Enter: next. Empty: not taken. 0: dead spot. Minus: reverse flow. Backspace or ↑: back.
      </p>
    </div>
  );
}
