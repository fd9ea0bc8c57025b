/** One side of a cell's frame. */
export interface BorderLook {
  /** thin, medium, thick, dashed, dotted, double, hair, … */
  readonly style: string;
  /** Six hexadecimal digits; undefined where the program chooses. */
  readonly color: string | undefined;
}

export const SIDES = ["left", "right", "top", "bottom"] as const;
export type Side = (typeof SIDES)[number];

/** How a cell looks, as far as a grid shows it; what is undefined is as everywhere else. */
export interface CellLook {
  readonly isBold: boolean;
  readonly isItalic: boolean;
  readonly isUnderlined: boolean;
  readonly isStruck: boolean;
  readonly sizePt: number | undefined;
  readonly textColor: string | undefined;
  readonly fillColor: string | undefined;
  readonly borders: Readonly<Partial<Record<Side, BorderLook>>>;
  readonly horizontal: string | undefined;
  readonly vertical: string | undefined;
  readonly wraps: boolean;
  readonly rotationDegrees: number;
  readonly numberFormat: string;
  /** Whether sheet protection, where it is on, locks the cell. */
  readonly isLocked: boolean;
}

/** The looks of a workbook. */
export interface WorkbookLooks {
  /** By the number that a cell, row or column names as its style. */
  readonly cells: readonly CellLook[];
  /** By the number that a conditional format names: only what differs is given. */
  readonly differences: readonly CellLook[];
}

export const PLAIN_LOOK: CellLook = {
  isBold: false,
  isItalic: false,
  isUnderlined: false,
  isStruck: false,
  sizePt: undefined,
  textColor: undefined,
  fillColor: undefined,
  borders: {},
  horizontal: undefined,
  vertical: undefined,
  wraps: false,
  rotationDegrees: 0,
  numberFormat: "General",
  isLocked: true,
};
