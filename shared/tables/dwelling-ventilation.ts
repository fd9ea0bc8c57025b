/** How far a number of a table was checked. */
type Standing = "read" | "derived" | "common practice" | "from memory";

/** Rates of one edition; a rate of one never goes with a rate of another. */
export interface DwellingVentilationRates {
  readonly areaRateCfmFt2: number;
  readonly personRateCfm: number;
  readonly source: string;
  readonly standing: Standing;
}

/** Whole-dwelling ventilation rates, one row for each edition. */
export const DWELLING_VENTILATION = {
  "62.2-2019": {
    areaRateCfmFt2: 0.03,
    personRateCfm: 7.5,
    source: "ASHRAE 62.2-2019, as coded with its citation in a national laboratory's open energy code",
    standing: "read",
  },
  "62.2-2010": {
    areaRateCfmFt2: 0.01,
    personRateCfm: 7.5,
    source: "ASHRAE 62.2-2010: area rate as told by a glossary page (read); rate per person from memory, unverified",
    standing: "from memory",
  },
} as const satisfies Record<string, DwellingVentilationRates>;

/** An edition with its own rates. */
export type DwellingVentilationEdition = keyof typeof DWELLING_VENTILATION;

/** Federal rule for manufactured homes: a rate over the floor, and a least value. */
export const MANUFACTURED_HOME_VENTILATION = {
  areaRateCfmFt2: 0.035,
  leastCfm: 50,
  source: "24 CFR 3280.103",
  standing: "read",
} as const;
