/** What a new workbook is to hold otherwise than the template as it comes. */
export interface TemplateOptions {
  /** Reading columns of an outlet: points of an opening, or sweeps in a face sweep. */
  readonly points?: number;
  /** Blocks of a room balance that come when they are asked for, so that the plain sheet stays short. */
  readonly blocks?: readonly BalanceBlock[];
}

/** What a room balance can hold besides, and what each block is for. */
export const BALANCE_BLOCKS = {
  shares: "a room's design airflow split over its outlets: evenly, by area or by typed shares",
  seasons: "heating and cooling airflow of each system, and the rule that gives each room its design",
  areas: "the effective or free area that a manufacturer publishes, and one cell that says which one counts",
  instruments: "the meters of the job, each with its serial number, its calibration and the day it is due",
  visits: "each outlet as found and as left: readings, damper, day, technician and meter",
  thermal: "a thermal meter that shows standard velocity: airflows are actual, by the density of the job's air",
  report: "a front page with who took part, the summary and room for signatures, and a page of remarks",
} as const;

export type BalanceBlock = keyof typeof BALANCE_BLOCKS;

/** Reading columns of an outlet as each template comes; a template that is left out reads no outlets. */
export const USUAL_POINTS = {
  "room-balance": 6,
  "face-sweep": 4,
  "before-after": 4,
} as const;

/** More points are a traverse, which has a template of its own. */
export const MOST_POINTS = 24;
