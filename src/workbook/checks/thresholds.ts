/*
 * Where a check draws its line. Each is chosen wide enough that ordinary work stays quiet.
 */

/**
 * Below this a reading in fpm is doubted: rotating-vane and hot-wire meters for this work start at about 20 to 50 fpm.
 * Common practice, no source.
 */
export const LEAST_READABLE_FPM = 20;

/** From this on a reading counts as surely taken in fpm. Common practice, no source. */
export const SURELY_FPM = 60;

/** Above this a reading in m/s is doubted: 60 m/s are 11,800 fpm, far beyond any duct. Common practice, no source. */
export const MOST_PLAUSIBLE_M_PER_S = 60;

/** A converted reading counts as one of the others when it lies within this factor of their median. Own choice. */
export const LIKE_THE_OTHERS_FACTOR = 3;

/** An opening larger than this is doubted even alone: 10 ft by 10 ft. Common practice, no source. */
export const MOST_PLAUSIBLE_AREA_FT2 = 100;

/** Up to this an area is never doubted: most outlets of ducted systems are smaller. Common practice, no source. */
export const SURELY_PLAUSIBLE_AREA_FT2 = 12;

/**
 * An area counts as width times height in in² when it is this part of it: a whole area or what louvers leave of it.
 * In ft² it would be 1/144 of it. Derived.
 */
export const AREA_TO_SIZE_RATIO = { least: 0.2, most: 1.05 } as const;

/** Airflow over design beyond which the area is doubted: in² taken for ft² make it 144 times too large. Own choice. */
export const ABSURD_AIRFLOW_TO_DESIGN_RATIO = 50;

/** Airflow over design below which an area stands, however large: it fits its design. Own choice, well below 144. */
export const SURELY_PLAUSIBLE_AIRFLOW_TO_DESIGN_RATIO = 5;

/** An area this many times the median of its column is doubted. Own choice, well below 144. */
export const ABSURD_AREA_TO_COLUMN_RATIO = 50;

/** How many constants may stand side by side in a column of formulas and still be taken for overwritten ones. Own choice. */
export const MOST_OVERWRITTEN_IN_A_RUN = 3;

/** How many formulas of one form a column must have before a constant in it is doubted. Own choice. */
export const LEAST_FORMULAS_OF_A_COLUMN = 2;

/** Fewer readings than these do not show which sign is the odd one. Own choice. */
export const LEAST_READINGS_WITH_A_SIGN = 3;

/**
 * A reading of the other sign is doubted from this part of the others' median on: eddies near a wall or a vane are
 * slower. Own choice.
 */
export const OTHER_SIGN_TO_OTHERS_RATIO = 0.5;

/** Airflow over design beyond which something was mistyped or misread, however bad the balance. Own choice. */
export const FAR_ABOVE_DESIGN_RATIO = 3;

/** Airflow over design below which the same holds; a dead outlet is 0 and no slip. Own choice. */
export const FAR_BELOW_DESIGN_RATIO = 0.1;

/** Airflow over design that makes a size doubtful: inches for millimeters differ by 645, for feet by 144. Own choice. */
export const SIZE_DOUBT_RATIO = 10;

/** A size in another unit is told when it would bring the airflow this near to design. Own choice. */
export const SIZE_FITS_RATIO = 2.5;

/** An opening smaller than this is doubted: 2 in by 2 in, less than the smallest register. Own choice. */
export const LEAST_PLAUSIBLE_AREA_FT2 = 4 / 144;

/** How far designs may lie from their sum. Own choice. */
export const DESIGNS_APART_RATIO = 0.02;

/** By so much more for each of them, in cfm or L/s: designs are rounded to 5. Own choice. */
export const ROUNDED_DESIGN = 2.5;

/** How far an airflow may lie from what its row's own inputs give before it does not follow from them. Own choice. */
export const FOLLOWS_INPUTS_RATIO = 0.01;

/** Airflows of neighboring rows that differ from their inputs by the same ratio are told as one. Own choice. */
export const SAME_RATIO = 0.002;

/** How many formulas of one form a column must have before one of another form is doubted. Own choice. */
export const LEAST_LIKE_FORMULAS = 3;

/** So many rows a formula may lie from the next of its column to be compared with it. Own choice. */
export const NEAR_ROWS = 3;

/** Percent points by which a percent may differ from its own airflow and design: what a whole percent rounds. */
export const ROUNDED_PERCENT = 0.6;

/** A smaller figure is no part of an opening that stays free, but a conversion. Common practice, no source. */
export const LEAST_FACTOR = 0.2;
