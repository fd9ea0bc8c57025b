import { useMemo } from "preact/hooks";
import { DomainError } from "../../core/index.js";
import { type JobDetails, type MeasuredResult, measuredResult, type TakenMeasurement } from "../../workbook/index.js";
import { useDraft } from "../drafts/use-draft.js";
import { usePane } from "../shell/pane-context.js";
import type { MeasureProps } from "./measure-props.js";
import type { MeasureAction } from "./measure-reducer.js";
import { PlanSection } from "./plan-section.js";
import { PutSection } from "./put-section.js";
import { ReadingsSection } from "./readings-section.js";
import { ResultSection } from "./result-section.js";
import { draftOf, NO_MEASUREMENTS, rowDraftsReducer, waitingDrafts } from "./row-drafts.js";
import { SweepsSection } from "./sweeps-section.js";
import { type UnderstoodMeasurement, understoodMeasurement } from "./understood-measurement.js";
import { useSelectedOutlet } from "./use-selected-outlet.js";
import { useSizeMath } from "./use-size-math.js";
import { WaitingDrafts } from "./waiting-drafts.js";
import { WhatSection } from "./what-section.js";
import "./measure.css";
import "./drawing/drawing.css";

/** A measurement from its size to its airflow, and into the sheet. */
export function MeasureTab() {
  const { job } = usePane();
  const [drafts, change] = useDraft("measure", rowDraftsReducer, NO_MEASUREMENTS);
  const { outlet, failure: placeFailure } = useSelectedOutlet();
  const place = outlet ?? null;
  const draft = draftOf(drafts, place);
  const dispatch = (action: MeasureAction) => change({ type: "measure", place, action });
  const { math, failure } = useSizeMath(draft.width !== "" || draft.height !== "" || draft.wall !== "");
  const { details } = job;
  const understood = useMemo(
    () => (math === null ? null : understoodMeasurement(draft, details, math)),
    [draft, details, math],
  );
  const taken = understood?.taken ?? null;
  const outcome = useMemo(() => outcomeOf(taken, details), [taken, details]);
  const plan = understood?.plan ?? null;
  const points = plan !== null && "points" in plan ? plan.points : null;
  const props: MeasureProps = { draft, dispatch, job: details, place, placeFailure, understood };
  const isSwept = draft.kind === "face" && draft.method === "sweeps";
  // What is typed belongs to a row: nothing can be typed until it is known which.
  if (outlet === undefined && placeFailure === null) return <p class="vs-lead">Looking which row is selected …</p>;
  return (
    <>
      <WaitingDrafts
        waiting={waitingDrafts(drafts, place)}
        onUse={(from) => change({ type: "use here", place, from })}
      />
      {failure !== null && <p class="vs-error">{failure}</p>}
      <WhatSection {...props} />
      <PlanSection {...props} />
      {isSwept && <SweepsSection {...props} />}
      {!isSwept && points !== null && <ReadingsSection {...props} points={points} />}
      {taken !== null && outcome.result !== null && (
        <ResultSection taken={taken} result={outcome.result} points={points} />
      )}
      {outcome.problem !== null && <p class="vs-error">{outcome.problem}</p>}
      <PutSection
        key={place?.id ?? ""}
        place={place}
        taken={taken}
        result={outcome.result}
        missing={missingOf(understood, outcome)}
        onPut={() => dispatch({ type: "put" })}
        onStartOver={() => dispatch({ type: "start over" })}
      />
    </>
  );
}

interface Outcome {
  readonly result: MeasuredResult | null;
  readonly problem: string | null;
}

/** What keeps a measurement from the sheet, in a few words: with everything else there, it is a reading. */
function missingOf(understood: UnderstoodMeasurement | null, { result, problem }: Outcome): readonly string[] {
  if (understood === null) return ["the size"];
  const { missing, taken } = understood;
  if (missing.length > 0 || result !== null || problem !== null) return missing;
  return [taken?.kind === "face sweeps" ? "a sweep" : "a reading"];
}

/** A number out of the range in which a formula means something is said, not thrown. */
function outcomeOf(taken: TakenMeasurement | null, job: JobDetails): Outcome {
  try {
    return { result: taken === null ? null : measuredResult(taken, job), problem: null };
  } catch (cause) {
    if (!(cause instanceof DomainError)) throw cause;
    return { result: null, problem: `No result: ${cause.message}.` };
  }
}
