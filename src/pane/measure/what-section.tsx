import { lengthUnit } from "../../workbook/index.js";
import { ChoiceField } from "../controls/choice-field.js";
import { Section } from "../controls/section.js";
import { FactorFields } from "./factor-fields.js";
import { KnownOpeningOffer } from "./known-opening-offer.js";
import type { MeasureProps } from "./measure-props.js";
import { SizeField } from "./size-field.js";

const KINDS = [
  { value: "duct", label: "Inside a duct" },
  { value: "face", label: "At a grille or register" },
] as const;

const FACE_SHAPES = [
  { value: "round", label: "Round" },
  { value: "rectangular", label: "Rectangular" },
] as const;

const DUCT_SHAPES = [...FACE_SHAPES, { value: "flat oval", label: "Flat oval" }] as const;

/** What the two sizes are called; a round one has the first alone. */
const SIZE_LABELS = {
  round: ["Diameter", ""],
  rectangular: ["Width", "Height"],
  "flat oval": ["Long side, end to end", "Short side, between the flats"],
} as const;

const HINTS = {
  duct: "Inside, lining taken off.",
  face: "Clear size inside the frame.",
} as const;

/** The word joiner keeps a line from ending behind the minus. */
const EXAMPLES = {
  ip: "14\u00a01/4, 350\u00a0mm, 12\u00a0-\u2060\u00a02*1/2",
  si: "350, 14\u00a01/4\u00a0in, 350\u00a0-\u2060\u00a02*12",
} as const;

/** What is measured: duct or face, its size, and the part of a face that is free. */
export function WhatSection(props: MeasureProps) {
  const { draft, dispatch, job, understood } = props;
  const unit = lengthUnit(job.units);
  const isRound = draft.shape === "round";
  const [first, second] = SIZE_LABELS[draft.shape];
  return (
    <Section title="Opening">
      <KnownOpeningOffer {...props} />
      <ChoiceField
        legend="Measured"
        choices={KINDS}
        value={draft.kind}
        onChoose={(kind) => dispatch({ type: "set", changes: { kind } })}
      />
      <ChoiceField
        legend="Shape"
        choices={draft.kind === "duct" ? DUCT_SHAPES : FACE_SHAPES}
        value={draft.shape}
        onChoose={(shape) => dispatch({ type: "set", changes: { shape } })}
      />
      <SizeField
        label={draft.kind === "duct" && draft.shape === "rectangular" ? "Width that the probe crosses" : first}
        unit={unit}
        hint={`${HINTS[draft.kind]} As you write it: ${EXAMPLES[job.units]}.`}
        value={draft.width}
        read={understood?.sizes.width}
        onInput={(width) => dispatch({ type: "set", changes: { width } })}
      />
      {!isRound && (
        <SizeField
          label={second}
          unit={unit}
          value={draft.height}
          read={understood?.sizes.height}
          onInput={(height) => dispatch({ type: "set", changes: { height } })}
        />
      )}
      {draft.kind === "face" && <FactorFields {...props} />}
    </Section>
  );
}
