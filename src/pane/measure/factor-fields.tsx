import { ASSUMED_FREE_AREA } from "../../../shared/tables/assumed-free-area.js";
import { areaUnit } from "../../workbook/index.js";
import { ChoiceField } from "../controls/choice-field.js";
import { figure } from "../controls/shown-figure.js";
import { TextField } from "../controls/text-field.js";
import type { MeasureProps } from "./measure-props.js";

const BASES = [
  { value: "published", label: "Published for this grille" },
  { value: "effective area", label: "From its effective area (Ak)" },
  { value: "unknown", label: "Unknown" },
  { value: "open", label: "Open, no louvers" },
] as const;

/** How much of a face the louvers leave free, and where that figure comes from. */
export function FactorFields({ draft, dispatch, job, understood }: MeasureProps) {
  const factor = understood?.factor ?? null;
  const error = factor !== null && "error" in factor ? factor.error : null;
  const words = factor !== null && "understood" in factor ? factor.understood : null;
  return (
    <>
      <ChoiceField
        legend="Free-area factor"
        choices={BASES}
        value={draft.factorBasis}
        onChoose={(factorBasis) => dispatch({ type: "set", changes: { factorBasis } })}
      />
      {draft.factorBasis === "published" && (
        <TextField
          label="Factor"
          isShort
          inputMode="decimal"
          hint="Above 0, at most 1; it holds for the manufacturer's way of measuring."
          value={draft.factor}
          error={error}
          onInput={(text) => dispatch({ type: "set", changes: { factor: text } })}
        />
      )}
      {draft.factorBasis === "effective area" && (
        <TextField
          label="Effective area"
          isShort
          inputMode="decimal"
          unit={areaUnit(job.units)}
          value={draft.effectiveArea}
          error={error}
          understood={words}
          onInput={(effectiveArea) => dispatch({ type: "set", changes: { effectiveArea } })}
        />
      )}
      {draft.factorBasis === "unknown" && (
        <p class="vs-flag">{words ?? `${figure(ASSUMED_FREE_AREA.metal.freeAreaRatio)} is assumed.`}</p>
      )}
    </>
  );
}
