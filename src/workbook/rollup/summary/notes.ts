import { PERCENT_BINS } from "../percent-bins.js";

/** What the columns of a roll-up mean, for the sheet that explains. */
export const SUMMARY_NOTES: readonly (readonly [topic: string, text: string])[] = [
  [
    "Percent of design",
    "Always the sum measured over the sum of design of the same outlets. An average of percents would let a small outlet count as much as a big one.",
  ],
  [
    "Compared",
    "Outlets with a design and an airflow. Only they count in the sums Design and Measured. A missing value is never zero.",
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
    "The ± of the outlets added up: worst case, as if all were off the same way, by one meter that reads high or one assumed factor. The true ± is seldom larger. Empty unless every compared outlet states its ±. GUM, 5.2.2.",
  ],
  ["As found, as left", "Over the outlets that were measured both as found and as left, with or without a design."],
  [
    "Calibration",
    "As of the days of the readings. A meter past its due day counts as expired. Where no such day is stated, its age counts. The sheet Findings names the job. A year is usual.",
  ],
  [
    "Trend: from and to",
    "Where the true share within limits may be, from the number of outlets (Wilson's interval, 95 %). Outlets of one job are alike, so the true range may be wider.",
  ],
  [
    "Visits",
    "Each day of readings of a job, by its own workbook, is a visit. The last one counts everywhere else. Brought within: outlets out of limits as found and within as left; fallen out: the reverse.",
  ],
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
