/** What is found out about a log before its numbers mean anything, in the order in which each leans on the ones before. */
export const FINDING_NAMES = [
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

export type FindingName = (typeof FINDING_NAMES)[number];

/** How sure a finding is. "asked": the text allows more than one answer, and a person has to give it. */
export type FindingStanding = "found" | "given" | "assumed" | "asked";

export interface FindingChoice {
  readonly value: string;
  readonly label: string;
}

/** One finding, with its reason, and what a person may put in its place. */
export interface Finding {
  /** Null where it is asked: nothing is guessed. */
  readonly value: string | null;
  readonly standing: FindingStanding;
  /** Why, or what is asked, as a sentence. */
  readonly reason: string;
  /** Empty where any text will do. */
  readonly choices: readonly FindingChoice[];
}

export type LogFindings = Readonly<Record<FindingName, Finding>>;

/** What a person says instead of what was found. */
export type LogChoices = Readonly<Partial<Record<FindingName, string>>>;

/** What is said where a person has chosen. */
export const given = (value: string, choices: readonly FindingChoice[]): Finding => ({
  value,
  standing: "given",
  reason: "As you chose.",
  choices,
});

/** What is asked, since the text does not say it. */
export const asked = (reason: string, choices: readonly FindingChoice[]): Finding => ({
  value: null,
  standing: "asked",
  reason,
  choices,
});

export const found = (value: string, reason: string, choices: readonly FindingChoice[]): Finding => ({
  value,
  standing: "found",
  reason,
  choices,
});

export const assumed = (value: string, reason: string, choices: readonly FindingChoice[]): Finding => ({
  value,
  standing: "assumed",
  reason,
  choices,
});

/** Whether a choice is one of those offered; anything else would be read as something nobody meant. */
export function isOffered(choices: readonly FindingChoice[], value: string | undefined): value is string {
  return value !== undefined && choices.some((choice) => choice.value === value);
}
