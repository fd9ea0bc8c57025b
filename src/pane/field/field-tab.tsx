import { useCallback } from "preact/hooks";
import { type FieldOutlet, readFieldOutlets } from "../../workbook/index.js";
import { Section } from "../controls/section.js";
import { fixedFigure } from "../controls/shown-figure.js";
import { useDraft } from "../drafts/use-draft.js";
import { usePane } from "../shell/pane-context.js";
import { useReading } from "../shell/use-reading.js";
import { fieldReducer, NOTHING_OPEN } from "./field-draft.js";
import { OutletEntry } from "./outlet-entry.js";
import { toDo } from "./to-do.js";
import "./field.css";

/** The outlets of the job to be worked through on site: what is still to do, and one outlet at a time. */
export function FieldTab() {
  const { host, job, problems } = usePane();
  const { units } = job.details;
  const read = useCallback(() => readFieldOutlets(host, units), [host, units]);
  const { known } = useReading(host, problems, read);
  const [draft, dispatch] = useDraft("field", fieldReducer, NOTHING_OPEN);
  if (known === null) return <p class="vs-lead">Reading the outlets …</p>;
  const outlets = known.value;
  const index = outlets.findIndex(({ outlet }) => outlet.id === draft.open);
  const current = outlets[index];
  if (outlets.length === 0) {
    return (
      <Section title="No outlets yet">
        <p class="vs-lead">
          List the outlets on their sheet. Where there is none, add “Room balance” on the tab Start.
        </p>
      </Section>
    );
  }
  if (current === undefined) return <OutletsToDo outlets={outlets} onOpen={(id) => dispatch({ type: "open", id })} />;
  return (
    <OutletEntry
      key={current.outlet.id}
      field={current}
      previous={outlets[index - 1] ?? null}
      next={outlets[index + 1] ?? null}
      draft={draft}
      dispatch={dispatch}
    />
  );
}

interface OutletsToDoProps {
  readonly outlets: readonly FieldOutlet[];
  readonly onOpen: (id: string) => void;
}

/** Every outlet with what is still to do at it; one press opens it. */
function OutletsToDo({ outlets, onOpen }: OutletsToDoProps) {
  const left = outlets.filter((outlet) => toDo(outlet).kind !== "done").length;
  const isOneSheet = new Set(outlets.map(({ outlet }) => outlet.sheet)).size === 1;
  return (
    <Section
      title={left === 0 ? `All ${outlets.length} outlets are done` : `${left} of ${outlets.length} outlets to do`}
    >
      <ul class="vs-fieldlist">
        {outlets.map((field) => {
          const { outlet, percent } = field;
          const { text, kind } = toDo(field);
          const where = [isOneSheet ? "" : outlet.sheet, outlet.room, outlet.kind].filter((word) => word !== "");
          return (
            <li key={outlet.id}>
              <button type="button" class="vs-fieldrow" onClick={() => onOpen(outlet.id)}>
                <span class="vs-fieldname">
                  <b>{outlet.name}</b> {where.join(" · ")}
                </span>
                <span class={`vs-todo vs-todo-${kind}`}>
                  {text}
                  {percent === null ? "" : ` ${fixedFigure(percent, 0)} %`}
                </span>
              </button>
            </li>
          );
        })}
      </ul>
    </Section>
  );
}
