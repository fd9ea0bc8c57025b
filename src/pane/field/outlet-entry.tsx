import { useEffect, useRef } from "preact/hooks";
import { airflowUnit, type FieldEntry, type FieldOutlet, velocityUnit } from "../../workbook/index.js";
import { readTypedNumber } from "../controls/read-typed-number.js";
import { figure, fixedFigure, preciseFigure, shownNumber } from "../controls/shown-figure.js";
import { TextField } from "../controls/text-field.js";
import { SweepTimer } from "../measure/sweep-timer.js";
import { usePane } from "../shell/pane-context.js";
import type { FieldAction, FieldDraft } from "./field-draft.js";
import { joinedNote, partedNote } from "./to-do.js";

interface OutletEntryProps {
  readonly field: FieldOutlet;
  readonly previous: FieldOutlet | null;
  readonly next: FieldOutlet | null;
  readonly draft: FieldDraft;
  readonly dispatch: (action: FieldAction) => void;
}

const cellOf = ({ address }: FieldEntry): string => `${address.sheet}!${address.range}`;

const shownEntry = ({ value }: FieldEntry): string =>
  typeof value === "number" ? preciseFigure(value, 12) : String(value ?? "");

/** Whether the sheet shows what was typed. */
function isShown(entry: FieldEntry, text: string): boolean {
  const read = readTypedNumber(text, null, null);
  return "value" in read && (read.value === null ? "" : figure(read.value)) === shownEntry(entry);
}

/** One outlet: its readings one after another, what they come to, and the way to the next. */
export function OutletEntry({ field, previous, next, draft, dispatch }: OutletEntryProps) {
  const { host, job, run } = usePane();
  const { outlet, entries, noteCell, note } = field;
  const { units } = job.details;
  const form = useRef<HTMLDivElement>(null);
  const unitOf = ({ holds }: FieldEntry): string =>
    holds === "seconds" ? "s" : holds === "velocity" ? velocityUnit(units) : airflowUnit(units);

  useEffect(() => {
    const inputs = [...(form.current?.querySelectorAll<HTMLInputElement>(".vs-readings input") ?? [])];
    (inputs.find(({ value }) => value === "") ?? inputs[0])?.focus();
  }, []);

  // What is typed stands in its field until the sheet shows the same: a later write reads it from there.
  useEffect(() => {
    for (const entry of entries) {
      const text = draft.typed[cellOf(entry)];
      if (text !== undefined && isShown(entry, text)) dispatch({ type: "written", cell: cellOf(entry), text });
    }
  }, [entries, draft.typed, dispatch]);

  function write(entry: FieldEntry): void {
    const text = draft.typed[cellOf(entry)];
    if (text === undefined || isShown(entry, text)) return;
    const read = readTypedNumber(text, entry.holds === "seconds" ? 0 : null, null);
    if ("error" in read) return;
    const value = read.value === null ? null : read.value * entry.scale;
    void run(async () => {
      await host.write([{ address: entry.address, cells: [[value]] }]);
      return null;
    });
  }

  /** Enter goes on to the next field, and after the last one to the next outlet's button. */
  function onKeyDown(event: KeyboardEvent): void {
    if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement)) return;
    event.preventDefault();
    const stops = [...(form.current?.querySelectorAll<HTMLElement>(".vs-readings input, .vs-next") ?? [])];
    stops[stops.indexOf(event.target) + 1]?.focus();
  }

  function onStop(): void {
    const seconds = (Date.now() - draft.startedAt) / 1000;
    const empty = entries.find(
      (entry) => entry.holds === "seconds" && (draft.typed[cellOf(entry)] ?? shownEntry(entry)) === "",
    );
    if (empty !== undefined) dispatch({ type: "type", cell: cellOf(empty), text: fixedFigure(seconds, 0) });
  }

  return (
    <section class="vs-section vs-field-outlet" aria-labelledby="field-outlet" ref={form} onKeyDown={onKeyDown}>
      <h2 id="field-outlet">
        {outlet.name}
        {outlet.room === "" ? "" : `, ${outlet.room}`}
      </h2>
      <Result field={field} />
      <div class="vs-readings">
        {entries.map((entry) => {
          const typed = draft.typed[cellOf(entry)];
          const read = typed === undefined ? null : readTypedNumber(typed, entry.holds === "seconds" ? 0 : null, null);
          return (
            <TextField
              key={cellOf(entry)}
              label={entry.label}
              unit={unitOf(entry)}
              inputMode="decimal"
              value={typed ?? shownEntry(entry)}
              error={read !== null && "error" in read ? read.error : null}
              onInput={(text) => dispatch({ type: "type", cell: cellOf(entry), text })}
              onCommit={() => write(entry)}
            />
          );
        })}
        {entries.length === 0 && <p class="vs-flag">“{outlet.sheet}” takes no readings here. Type them in the grid.</p>}
      </div>
      <div class="vs-buttons">
        <button
          type="button"
          class="vs-button vs-main vs-next"
          onClick={() => dispatch({ type: "open", id: next?.outlet.id ?? "" })}
        >
          {next === null ? "Done: list of outlets" : `Next: ${next.outlet.name}`}
        </button>
        {previous !== null && (
          <button type="button" class="vs-button" onClick={() => dispatch({ type: "open", id: previous.outlet.id })}>
            Back: {previous.outlet.name}
          </button>
        )}
        <button type="button" class="vs-button" onClick={() => dispatch({ type: "open", id: "" })}>
          List of outlets
        </button>
      </div>
      {entries.some(({ holds }) => holds !== "airflow") && (
        <SweepTimer
          startedAt={draft.startedAt}
          dispatch={(action) => {
            if (action.type === "start sweep" || action.type === "stop sweep") dispatch(action);
          }}
          onStop={onStop}
        />
      )}
      {noteCell !== null && (
        <NoteFields
          note={note}
          draft={draft}
          cell={`${noteCell.sheet}!${noteCell.range}`}
          dispatch={dispatch}
          onWrite={(text) =>
            run(async () => {
              await host.write([{ address: noteCell, cells: [[text === "" ? null : text]] }]);
              return null;
            })
          }
        />
      )}
      {field.findings.map((finding) => (
        <p key={finding} class="vs-flag">
          {finding}
        </p>
      ))}
    </section>
  );
}

/** What the readings come to, said as it changes. */
function Result({ field: { outlet, percent, verdict } }: Pick<OutletEntryProps, "field">) {
  const { job } = usePane();
  const unit = airflowUnit(job.details.units);
  const isOff = verdict === "low" || verdict === "high";
  return (
    <p class="vs-field-result" role="status">
      <b>{outlet.measured === null ? "No airflow yet" : `${shownNumber(outlet.measured)} ${unit}`}</b>
      {outlet.design !== null && ` of ${shownNumber(outlet.design)} ${unit}`}
      {percent !== null && `, ${fixedFigure(percent, 1)} %`}
      {verdict !== "" && <span class={isOff ? "vs-todo vs-todo-off" : "vs-todo vs-todo-done"}>{verdict}</span>}
    </p>
  );
}

interface NoteFieldsProps {
  readonly note: string;
  readonly draft: FieldDraft;
  /** Where the note stands; what is typed is kept under it. */
  readonly cell: string;
  readonly dispatch: (action: FieldAction) => void;
  readonly onWrite: (text: string) => Promise<void>;
}

/** The damper's position and a note; the sheet keeps both in one cell. */
function NoteFields({ note, draft, cell, dispatch, onWrite }: NoteFieldsProps) {
  const kept = partedNote(note);
  const keys = { damper: `${cell} damper`, rest: `${cell} note` };
  const damper = draft.typed[keys.damper] ?? kept.damper;
  const rest = draft.typed[keys.rest] ?? kept.rest;
  useEffect(() => {
    for (const [key, value] of [
      [keys.damper, kept.damper],
      [keys.rest, kept.rest],
    ] as const) {
      const text = draft.typed[key];
      if (text !== undefined && text.trim() === value) dispatch({ type: "written", cell: key, text });
    }
  }, [keys.damper, keys.rest, kept.damper, kept.rest, draft.typed, dispatch]);
  function write(): void {
    const text = joinedNote(damper, rest);
    if (text !== note) void onWrite(text);
  }
  return (
    <>
      <TextField
        label="Damper position"
        value={damper}
        hint="Such as 40 % open, or notch 3. It is kept at the front of the note."
        onInput={(text) => dispatch({ type: "type", cell: keys.damper, text })}
        onCommit={write}
      />
      <TextField
        label="Note"
        value={rest}
        onInput={(text) => dispatch({ type: "type", cell: keys.rest, text })}
        onCommit={write}
      />
    </>
  );
}
