import { useId } from "preact/hooks";
import {
  type Agreement,
  type Answer,
  type MappedUnitName,
  type ProposedColumn,
  type ProposedList,
  TITLE_USES,
} from "../../workbook/index.js";
import { columnLetters, formatAddress } from "../../xlsx/address.js";
import { SelectField } from "../controls/select-field.js";
import { CONTENT_CHOICES, contentOfValue, contentValue, unitChoices } from "./content-choices.js";

interface OwnColumnProps {
  readonly column: ProposedColumn;
  readonly onAnswer: (said: Answer) => void;
}

/** One column: its heading, what it is taken for, its unit, and why. */
function OwnColumn({ column, onAnswer }: OwnColumnProps) {
  const id = useId();
  const letters = columnLetters(column.column);
  const at = { about: "columns", first: column.column, last: column.column } as const;
  const units = unitChoices(column.content);
  const choose = (value: string) => onAnswer({ ...at, content: contentOfValue(value), unit: null });
  const chooseUnit = (value: string) =>
    onAnswer({ ...at, content: column.content, unit: value === "" ? null : (value as MappedUnitName) });
  return (
    <li class={column.question === "" ? "vs-own-column" : "vs-own-column vs-own-asked"}>
      <label for={id}>
        <strong>{letters}</strong> {column.heading === "" ? "(no heading)" : column.heading}
      </label>
      <div class="vs-own-choices">
        <select
          id={id}
          class="vs-input"
          value={contentValue(column.content)}
          aria-describedby={`${id}-why`}
          onChange={(event) => choose(event.currentTarget.value)}
        >
          {CONTENT_CHOICES.map(({ value, label }) => (
            <option key={value} value={value}>
              {label}
            </option>
          ))}
        </select>
        {units.length > 0 && (
          <select
            class="vs-input"
            aria-label={`Unit of column ${letters}`}
            value={column.unit ?? ""}
            onChange={(event) => chooseUnit(event.currentTarget.value)}
          >
            {units.map(({ value, label }) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        )}
      </div>
      <p id={`${id}-why`} class={column.question === "" ? "vs-hint" : "vs-error"}>
        {column.question === ""
          ? column.reason
          : `${column.question} (${column.reason || "no words of its heading are known"})`}
      </p>
      {column.question !== "" && column.content !== null && column.unit !== null && (
        <button
          type="button"
          class="vs-button"
          onClick={() => onAnswer({ ...at, content: column.content, unit: column.unit })}
        >
          Yes<span class="vs-hidden">, column {letters} is that</span>
        </button>
      )}
      {column.question !== "" && column.content !== null && units.length === 0 && (
        <button
          type="button"
          class="vs-button"
          onClick={() => onAnswer({ ...at, content: column.content, unit: null })}
        >
          Yes<span class="vs-hidden">, column {letters} is that</span>
        </button>
      )}
    </li>
  );
}

interface OwnListProps {
  readonly list: ProposedList;
  readonly agreement: Agreement;
  readonly onAnswer: (said: Answer) => void;
}

const TITLE_CHOICES = [
  { value: "", label: "Not used" },
  { value: "system", label: "System" },
  { value: "room", label: "Room" },
];

function titleAnswer(value: string): Answer {
  const use = TITLE_USES.find((one) => one === value);
  return use === undefined ? { about: "no titles" } : { about: "stated", stated: { titles: use } };
}

/** One list of a sheet, column by column. */
export function OwnList({ list, agreement, onAnswer }: OwnListProps) {
  const { factor, factorCell, kind } = list.stated;
  const [title] = list.titles;
  return (
    <>
      <h3>
        Headings in row {list.headerRow}, columns {columnLetters(list.firstColumn)} to {columnLetters(list.lastColumn)}
      </h3>
      {list.missing.map((sentence) => (
        <p key={sentence} class="vs-error">
          {sentence.replace(/ Say which, .*$/, " Choose it below.")}
        </p>
      ))}
      {factor !== undefined && (
        <p class="vs-hint">
          Factor {factor} for every outlet: {list.statedReason}.
        </p>
      )}
      {factorCell !== undefined && (
        <p class="vs-hint">
          Factor in {formatAddress(factorCell.row, factorCell.column)} for every outlet: {list.statedReason}.
        </p>
      )}
      {kind !== undefined && <p class="vs-hint">Every outlet is {kind}.</p>}
      {title !== undefined && (
        <SelectField
          label={`Titles over outlets, such as “${title}”`}
          choices={TITLE_CHOICES}
          value={list.stated.titles ?? ""}
          onChoose={(value) => onAnswer(titleAnswer(value))}
        />
      )}
      <ul class="vs-own-columns">
        {list.columns.map((column) => (
          <OwnColumn key={column.column} column={column} onAnswer={onAnswer} />
        ))}
      </ul>
      {agreement.sentence !== "" && (
        <p class={agreement.isDoubtful ? "vs-error" : "vs-hint"} role="status">
          {agreement.sentence}
        </p>
      )}
    </>
  );
}
