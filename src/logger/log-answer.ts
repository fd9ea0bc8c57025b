/** What is found out about a log before its numbers mean anything, in the order in which each leans on the ones before. */
export const LOG_QUESTIONS = [
  "encoding",
  "sheet",
  "delimiter",
  "decimal",
  "header",
  "time",
  "timeFormat",
  "velocity",
  "units",
  "range",
] as const;

export type LogQuestion = (typeof LOG_QUESTIONS)[number];

/** How sure an answer is. "asked": the text allows more than one answer, and a person has to give it. */
export type AnswerStanding = "found" | "given" | "assumed" | "asked";

export interface AnswerChoice {
  readonly value: string;
  readonly label: string;
}

/** One answer, with its reason, and what a person may put in its place. */
export interface LogAnswer {
  /** Null where it is asked: nothing is guessed. */
  readonly value: string | null;
  readonly standing: AnswerStanding;
  /** Why, or what is asked, as a sentence. */
  readonly reason: string;
  /** Empty where any text will do. */
  readonly choices: readonly AnswerChoice[];
}

export type LogAnswers = Readonly<Record<LogQuestion, LogAnswer>>;

/** What a person says instead of what was found. */
export type LogChoices = Readonly<Partial<Record<LogQuestion, string>>>;

/** What is said where a person has chosen. */
export const given = (value: string, choices: readonly AnswerChoice[]): LogAnswer => ({
  value,
  standing: "given",
  reason: "As you chose.",
  choices,
});

/** What is asked, since the text does not say it. */
export const asked = (reason: string, choices: readonly AnswerChoice[]): LogAnswer => ({
  value: null,
  standing: "asked",
  reason,
  choices,
});

export const found = (value: string, reason: string, choices: readonly AnswerChoice[]): LogAnswer => ({
  value,
  standing: "found",
  reason,
  choices,
});

export const assumed = (value: string, reason: string, choices: readonly AnswerChoice[]): LogAnswer => ({
  value,
  standing: "assumed",
  reason,
  choices,
});

/** Whether a choice is one of those offered; anything else would be read as something nobody meant. */
export function isOffered(choices: readonly AnswerChoice[], value: string | undefined): value is string {
  return value !== undefined && choices.some((choice) => choice.value === value);
}
