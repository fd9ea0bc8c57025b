import { PERCENT_BINS } from "../percent-bins.js";

/** What the columns of a roll-up mean, for the sheet that explains. */
export const SUMMARY_NOTES: readonly (readonly [topic: string, text: string])[] = [
  [
    "Percent of design",
    "Always the sum measured over the sum of design of the same outlets, never a mean of percents: a mean would let a small outlet weigh as much as a big one.",
  ],
  [
    "Compared",
    "Outlets with a design and an airflow. Only they stand in the sums Design and Measured. A missing value is never zero.",
  ],
  ["Not measured", "Outlets without an airflow. Their design is in no sum."],
  ["No design", "Outlets with an airflow but without a design. Their airflow is in no sum."],
  ["Faulty", "Outlets with an unusable value: a text, an error, unknown units. The sheet Findings names each."],
  [
    "Measured",
    "The last airflow: as left, or as found where nothing was adjusted. An airflow of 0 counts as measured. Jobs in SI and in inch-pound units are brought to one unit first.",
  ],
  [
    "Low, within, high, open",
    "By the limits that each job states for itself, from the unrounded percent. Where a job asks for the guarded rule, both ends of the ± must agree; where a limit lies between them the outlet is open. An outlet of a job without limits keeps the verdict that its sheet shows; a job that states only one limit of two gets no verdict.",
  ],
  [
    "± of a sum",
    "The ± of the outlets added up: as if all err alike, by one meter that reads high or one assumed factor. What does not repeat falls out partly in a sum, so that the true ± is seldom larger. Empty unless every outlet that is compared states its ±. GUM, 5.2.2.",
  ],
  [
    "As found, as left",
    "Over the outlets that were measured both before and after an adjustment, with or without a design.",
  ],
  [
    "Calibration",
    "Told on the days of the readings: a job whose meter was calibrated longer ago counts as expired, and the sheet Findings names it. A year is usual.",
  ],
  [
    "Trend: from and to",
    "Where the true share within limits may be, from the number of outlets (Wilson's interval, 95 %). It takes every outlet as independent; those of one job are alike, so the truth may lie farther off.",
  ],
  ["Visits", "Each day of readings of a job, by its own workbook, is a visit. The last one counts everywhere else."],
  ["Farthest outlet", "The one whose percent lies farthest from 100, up or down."],
  [
    "One job, several workbooks",
    "Jobs are told apart by their number. The workbook with the latest day of readings counts; of the same day, the one saved last. The others are on the sheet Left out.",
  ],
  [
    "Distribution",
    `Outlets by percent of design, in classes of 5 % from ${PERCENT_BINS[1]?.fromPercent} to ${PERCENT_BINS.at(-1)?.fromPercent} %. The lower end of a class belongs to it.`,
  ],
  [
    "What it is not",
    "A certificate. Field readings may be 10 to 15 % off. Local codes, the designer's tolerances and licensed practice rule.",
  ],
];
