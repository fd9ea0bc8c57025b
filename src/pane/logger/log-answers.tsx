import { useRef } from "preact/hooks";
import type { LogChoices, LogQuestion, ReadLog } from "../../logger/index.js";
import { AnswerField } from "./answer-field.js";
import { QUESTION_LABELS } from "./answer-words.js";

interface LogAnswersProps {
  readonly log: ReadLog;
  readonly choices: LogChoices;
  readonly onChoose: (name: LogQuestion, value: string) => void;
}

const NAMES = Object.keys(QUESTION_LABELS) as LogQuestion[];

const ASKED = "The file does not say this. Nothing is calculated before it is answered.";

/** What waits for an open question has no answer yet; what is so by the kind of file leaves nothing to choose. */
function isShown({ answers }: ReadLog, name: LogQuestion): boolean {
  return answers[name].value !== null && (name === "range" || answers[name].choices.length > 0);
}

/** What was taken for what: open questions stand first, the rest can be looked at and changed. */
export function LogAnswers({ log, choices, onChoose }: LogAnswersProps) {
  // An answered question stays where it stands, so that whoever answers by keyboard keeps the place.
  const everOpen = useRef<ReadonlySet<LogQuestion>>(new Set());
  everOpen.current = new Set([...everOpen.current, ...log.open]);
  const asked = NAMES.filter((name) => everOpen.current.has(name));
  const others = NAMES.filter((name) => !everOpen.current.has(name) && isShown(log, name));
  const unit = log.answers.units.choices.find(({ value }) => value === log.answers.units.value)?.label;
  const field = (name: LogQuestion) => (
    <AnswerField
      key={name}
      label={QUESTION_LABELS[name]}
      unit={name === "range" ? unit : undefined}
      answer={log.answers[name]}
      typed={choices[name]}
      onChoose={(value) => onChoose(name, value)}
    />
  );
  const told = (["velocity", "units", "time"] as const).flatMap((name) => {
    const { value, choices: offered } = log.answers[name];
    const label = offered.find((choice) => choice.value === value)?.label ?? value;
    return label === null ? [] : [`${QUESTION_LABELS[name]}: ${label}`];
  });
  return (
    <>
      {asked.length > 0 && (
        <div class="vs-ask">
          <p>{log.open.length > 0 ? ASKED : "The file does not say this; you answered it."}</p>
          {asked.map(field)}
        </div>
      )}
      {told.length > 0 && <p class="vs-understood">{told.join(". ")}.</p>}
      <details class="vs-details">
        <summary>What was found, to look at and to change</summary>
        {others.map(field)}
      </details>
    </>
  );
}
