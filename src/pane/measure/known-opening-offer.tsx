import { openingChanges, openingWords } from "./known-opening-words.js";
import type { MeasureProps } from "./measure-props.js";

/** Offers what the selected row of a list already says of its opening; takes it only at the press of its button. */
export function KnownOpeningOffer({ draft, dispatch, job, place, placeFailure }: MeasureProps) {
  if (placeFailure !== null) return <p class="vs-flag">{placeFailure}</p>;
  const opening = place?.opening ?? null;
  if (place === null || opening === null) return null;
  const changes = openingChanges(opening, job.units, place.measured);
  const fields = Object.keys(changes) as (keyof typeof changes)[];
  const isTaken = fields.length > 0 && fields.every((field) => draft[field] === changes[field]);
  const isSize = "width" in changes || "height" in changes;
  const what = isSize ? "size" : "effectiveArea" in changes ? "area" : "factor";
  return (
    <div class="vs-known">
      <p>{openingWords(opening, job.units)}</p>
      {fields.length > 0 && (
        <div class="vs-buttons">
          <button type="button" class="vs-button" onClick={() => dispatch({ type: "set", changes })}>
            Use this {what}
          </button>
        </div>
      )}
      <p role="status" class="vs-understood">
        {isTaken ? "Copied below." : ""}
      </p>
    </div>
  );
}
