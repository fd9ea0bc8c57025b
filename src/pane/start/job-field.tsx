import { useState } from "preact/hooks";
import { TextField } from "../controls/text-field.js";
import { usePane } from "../shell/pane-context.js";
import { type AskedField, fieldText, readField } from "./job-fields.js";
import type { StartAction, StartDraft } from "./start-draft.js";

interface JobFieldProps {
  readonly field: AskedField;
  readonly draft: StartDraft;
  readonly dispatch: (action: StartAction) => void;
}

const NOT_STATED = "Not in the workbook yet. Press Enter in the field to try again.";

/** One detail of the job; it is stated when the person leaves the field or presses Enter. */
export function JobField({ field, draft, dispatch }: JobFieldProps) {
  const { job, run, isBusy } = usePane();
  const { detail } = field;
  const typed = draft.texts[detail];
  const read = typed === undefined ? null : readField(field, typed);
  // What is left over from before, or was refused, looks like what the workbook says: it is marked until it is stated.
  const [isLeft, setLeft] = useState(typed !== undefined);

  function onCommit(isAsked: boolean): void {
    if (read === null || "error" in read) return;
    // What was refused is not tried again by leaving the field: the refusal could not be closed.
    if (isLeft && !isAsked) return;
    void run(async () => {
      setLeft(true);
      await job.state({ [detail]: read.value });
      setLeft(false);
      dispatch({ type: "stated", detail });
      return null;
    });
  }

  return (
    <TextField
      label={field.label}
      type={field.kind === "date" ? "date" : "text"}
      inputMode={field.kind === "number" ? "decimal" : "text"}
      isShort={field.kind !== "text"}
      unit={field.unit(job.details.units)}
      hint={field.hint}
      value={typed ?? fieldText(field, job.details)}
      error={read === null ? null : "error" in read ? read.error : isLeft && !isBusy ? NOT_STATED : null}
      onInput={(text) => {
        setLeft(false);
        dispatch({ type: "typed", detail, text });
      }}
      onCommit={onCommit}
    />
  );
}
