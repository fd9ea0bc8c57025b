/*
 * How every sheet looks: the one place for its colours, styles and number formats.
 *
 * Inputs are sand with a dotted frame, results are white. A verdict is always a word; its colours (blue, orange,
 * violet) stay apart for every common kind of colour blindness and in grey print.
 */

export const PALETTE = {
  ink: "1B2A33",
  muted: "5B6B75",
  white: "FFFFFF",
  header: "17414F",
  headerText: "FFFFFF",
  unitBand: "DCE7EA",
  rule: "B7C4CA",
  input: "FFF6DC",
  inputFrame: "BFA75A",
  outside: "ECEEF0",
  total: "EEF3F5",
  within: "D5E8F5",
  withinText: "0B4A73",
  low: "FCE0C2",
  lowText: "7A3500",
  high: "E6DAF3",
  highText: "4A1F78",
  incomplete: "F3F0E6",
  scaleLow: "FFFFFF",
  scaleHigh: "6FA8C7",
  bar: "2E7D96",
  limitLow: "C65D00",
  limitHigh: "6A3FA0",
} as const;

export interface StyleSpec {
  readonly bold: boolean;
  readonly italic: boolean;
  readonly size: number;
  readonly color: string;
  /** Null for no fill. */
  readonly fill: string | null;
  readonly border: "none" | "thin" | "input" | "under";
  readonly horizontal: "left" | "center" | "right" | "general";
  readonly vertical: "top" | "center" | "bottom";
  readonly wrap: boolean;
  /** Characters between the cell's edge and its text. */
  readonly indent: number;
  /** True for a cell that a person fills. */
  readonly unlocked: boolean;
}

export const FONT_NAME = "Calibri";
export const FONT_SIZE = 10;

const PLAIN: StyleSpec = {
  bold: false,
  italic: false,
  size: FONT_SIZE,
  color: PALETTE.ink,
  fill: null,
  border: "none",
  horizontal: "left",
  vertical: "center",
  wrap: false,
  indent: 0,
  unlocked: false,
};

/** Text keeps off the frame and off a number in the cell before it. */
const TEXT_INDENT = 1;

const INPUT: StyleSpec = { ...PLAIN, fill: PALETTE.input, border: "input", unlocked: true };
const RESULT: StyleSpec = { ...PLAIN, border: "thin", horizontal: "right" };

export const STYLES = {
  plain: PLAIN,
  title: { ...PLAIN, bold: true, size: 16, color: PALETTE.header },
  lead: { ...PLAIN, color: PALETTE.muted },
  leadWrapped: { ...PLAIN, color: PALETTE.muted, wrap: true, vertical: "top" },
  section: { ...PLAIN, bold: true, size: 12, color: PALETTE.header, border: "under" },
  label: { ...PLAIN, bold: true },
  help: { ...PLAIN, color: PALETTE.muted, wrap: true, indent: TEXT_INDENT },
  unitBeside: { ...PLAIN, color: PALETTE.muted, indent: TEXT_INDENT },
  paragraph: { ...PLAIN, wrap: true, vertical: "top" },
  topic: { ...PLAIN, bold: true, wrap: true, vertical: "top" },
  header: {
    ...PLAIN,
    bold: true,
    color: PALETTE.headerText,
    fill: PALETTE.header,
    border: "thin",
    horizontal: "center",
    wrap: true,
  },
  unit: { ...PLAIN, color: PALETTE.ink, fill: PALETTE.unitBand, border: "thin", horizontal: "center" },
  input: { ...INPUT, horizontal: "right" },
  inputText: { ...INPUT, indent: TEXT_INDENT },
  inputWrapped: { ...INPUT, wrap: true, vertical: "top", indent: TEXT_INDENT },
  result: RESULT,
  resultText: { ...RESULT, horizontal: "left", indent: TEXT_INDENT },
  resultWrapped: { ...RESULT, horizontal: "left", indent: TEXT_INDENT, wrap: true },
  resultCenter: { ...RESULT, horizontal: "center" },
  place: { ...PLAIN, color: PALETTE.muted, border: "thin", horizontal: "right" },
  totalLabel: {
    ...PLAIN,
    color: PALETTE.muted,
    fill: PALETTE.total,
    border: "thin",
    horizontal: "center",
    wrap: true,
  },
  total: { ...PLAIN, bold: true, fill: PALETTE.total, border: "thin", horizontal: "center" },
  within: { ...PLAIN, bold: true, color: PALETTE.withinText, fill: PALETTE.within },
  low: { ...PLAIN, bold: true, color: PALETTE.lowText, fill: PALETTE.low },
  high: { ...PLAIN, bold: true, color: PALETTE.highText, fill: PALETTE.high },
  incomplete: { ...PLAIN, italic: true, color: PALETTE.muted, fill: PALETTE.incomplete },
  outside: { ...PLAIN, color: PALETTE.muted, fill: PALETTE.outside },
} as const satisfies Readonly<Record<string, StyleSpec>>;

export type StyleName = keyof typeof STYLES;

/** Number formats as a spreadsheet program spells them. */
export const FORMATS = {
  general: "General",
  text: "@",
  whole: "0",
  thousands: "#,##0",
  oneDecimal: "0.0",
  twoDecimals: "0.00",
  threeDecimals: "0.000",
  fourDecimals: "0.0000",
  signed: "+0.0;-0.0;0.0",
  signedWhole: "+#,##0;-#,##0;0",
  date: "yyyy-mm-dd",
} as const;

export type FormatName = keyof typeof FORMATS;
