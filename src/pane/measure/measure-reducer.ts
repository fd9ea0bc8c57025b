import { shortFigure } from "../controls/shown-figure.js";
import { EMPTY_MEASUREMENT, type MeasureDraft, readingsOf, type TypedSweep } from "./measure-draft.js";
import { readReading } from "./reading-text.js";

/** Fields that hold a choice or a text of their own; changing one leaves every reading as it is. */
export type DraftField =
  | "kind"
  | "shape"
  | "width"
  | "height"
  | "factorBasis"
  | "factor"
  | "effectiveArea"
  | "rule"
  | "wall"
  | "upstream"
  | "downstream"
  | "angle"
  | "ductLines"
  | "ductPoints"
  | "method"
  | "faceLines"
  | "facePoints";

export type MeasureAction =
  | { readonly type: "set"; readonly changes: Partial<Pick<MeasureDraft, DraftField>> }
  | { readonly type: "typed"; readonly text: string }
  /** Takes what is typed and goes to a place; the keys are those of the plan, in the order of measuring. */
  | { readonly type: "go"; readonly keys: readonly string[]; readonly place: number }
  | { readonly type: "start sweep"; readonly at: number }
  | { readonly type: "stop sweep"; readonly at: number }
  | { readonly type: "add sweep" }
  | { readonly type: "take sweep"; readonly sweep: TypedSweep }
  | { readonly type: "set sweep"; readonly index: number; readonly changes: Partial<TypedSweep> }
  | { readonly type: "remove sweep"; readonly index: number }
  | { readonly type: "start over" }
  /** It was put into the sheet. */
  | { readonly type: "put" };

function withTyped(draft: MeasureDraft, key: string): MeasureDraft {
  const readings = { ...readingsOf(draft), [key]: draft.typed.trim() };
  return draft.kind === "duct" ? { ...draft, ductReadings: readings } : { ...draft, faceReadings: readings };
}

/** What cannot be read as a number stays in its field: nobody leaves a point with it. */
function gone(draft: MeasureDraft, keys: readonly string[], place: number): MeasureDraft {
  const current = keys[Math.min(draft.place, keys.length - 1)];
  if (current === undefined || "error" in readReading(draft.typed)) return draft;
  const isUntouched = draft.typed.trim() === "" && readingsOf(draft)[current] === undefined && place <= draft.place;
  const taken = isUntouched ? draft : withTyped(draft, current);
  const next = Math.max(0, Math.min(place, keys.length - 1));
  return { ...taken, place: next, typed: readingsOf(taken)[keys[next] ?? ""] ?? "" };
}

function stopped(draft: MeasureDraft, at: number): MeasureDraft {
  if (draft.sweepStartedAt === 0) return draft;
  const seconds = shortFigure(Math.max((at - draft.sweepStartedAt) / 1000, 0), 1);
  const untimed = draft.sweeps.findIndex((sweep) => sweep.seconds === "");
  const sweeps =
    untimed < 0
      ? [...draft.sweeps, { velocity: "", seconds }]
      : draft.sweeps.map((sweep, index) => (index === untimed ? { ...sweep, seconds } : sweep));
  return { ...draft, sweeps, sweepStartedAt: 0 };
}

/** A face and a duct each keep their readings; the field then shows the one of the first place. No face is flat oval. */
function changed(draft: MeasureDraft, changes: Partial<MeasureDraft>): MeasureDraft {
  const asked = { ...draft, ...changes };
  const next: MeasureDraft =
    asked.kind === "face" && asked.shape === "flat oval" ? { ...asked, shape: "rectangular" } : asked;
  if (next.kind === draft.kind) return next;
  return { ...next, place: 0, typed: readingsOf(next)["1.1"] ?? "" };
}

/** The state of the tab after an action. Pure; nothing that was typed is dropped but by "remove" and "start over". */
export function measureReducer(draft: MeasureDraft, action: MeasureAction): MeasureDraft {
  if (action.type === "put") return { ...draft, isInSheet: true };
  const next = measured(draft, action);
  const isOnlyPlace = action.type === "go" && readingsOf(next) === readingsOf(draft);
  return next === draft || isOnlyPlace ? next : { ...next, isInSheet: false };
}

function measured(draft: MeasureDraft, action: Exclude<MeasureAction, { readonly type: "put" }>): MeasureDraft {
  switch (action.type) {
    case "set":
      return changed(draft, action.changes);
    case "typed":
      return { ...draft, typed: action.text };
    case "go":
      return gone(draft, action.keys, action.place);
    case "start sweep":
      return { ...draft, sweepStartedAt: action.at };
    case "stop sweep":
      return stopped(draft, action.at);
    case "add sweep":
      return { ...draft, sweeps: [...draft.sweeps, { velocity: "", seconds: "" }] };
    case "take sweep":
      return { ...draft, sweeps: [...draft.sweeps, action.sweep] };
    case "set sweep":
      return {
        ...draft,
        sweeps: draft.sweeps.map((sweep, index) => (index === action.index ? { ...sweep, ...action.changes } : sweep)),
      };
    case "remove sweep":
      return { ...draft, sweeps: draft.sweeps.filter((_, index) => index !== action.index) };
    case "start over":
      return { ...EMPTY_MEASUREMENT, kind: draft.kind, shape: draft.shape, method: draft.method };
  }
}
