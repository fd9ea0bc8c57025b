import type { Look } from "../../../workbook/index.js";

/** Colours of the page's sheets. Blue, orange and violet stay apart for every common kind of colour blindness. */
export const COLORS = {
  ink: "#1B2A33",
  muted: "#5B6B75",
  header: "#17414F",
  headerText: "#FFFFFF",
  rule: "#B7C4CA",
  input: "#FFF6DC",
  total: "#EEF3F5",
  bar: "#2E7D96",
  limitLow: "#C65D00",
  limitHigh: "#6A3FA0",
} as const;

/** A verdict's word comes first; its colour only helps the eye. */
export const VERDICT_COLORS: Readonly<Record<string, { readonly fillColor: string; readonly textColor: string }>> = {
  low: { fillColor: "#FCE0C2", textColor: "#7A3500" },
  within: { fillColor: "#D5E8F5", textColor: "#0B4A73" },
  high: { fillColor: "#E6DAF3", textColor: "#4A1F78" },
  "not measured": { fillColor: "#E4E7E9", textColor: COLORS.muted },
  "part measured": { fillColor: "#F3F0E6", textColor: COLORS.muted },
};

interface EngineStyle {
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly fontSize?: number;
  readonly textColor?: string;
  readonly fillColor?: string;
  readonly align?: "left" | "center" | "right";
  readonly verticalAlign?: "top" | "middle" | "bottom";
  readonly wrapping?: "overflow" | "wrap" | "clip";
}

const PLAIN: EngineStyle = { textColor: COLORS.ink, verticalAlign: "middle" };
const INPUT: EngineStyle = { ...PLAIN, fillColor: COLORS.input };
const TOTAL: EngineStyle = { ...PLAIN, bold: true, fillColor: COLORS.total };

export const LOOKS: Readonly<Record<Look, EngineStyle>> = {
  title: { ...PLAIN, bold: true, fontSize: 16, textColor: COLORS.header },
  lead: { ...PLAIN, textColor: COLORS.muted },
  section: { ...PLAIN, bold: true, fontSize: 12, textColor: COLORS.header },
  label: { ...PLAIN, bold: true, verticalAlign: "top" },
  paragraph: { ...PLAIN, wrapping: "wrap", verticalAlign: "top" },
  header: {
    ...PLAIN,
    bold: true,
    fontSize: 9,
    textColor: COLORS.headerText,
    fillColor: COLORS.header,
    align: "center",
    wrapping: "wrap",
  },
  input: { ...INPUT, align: "right" },
  inputText: { ...INPUT, align: "left" },
  result: { ...PLAIN, align: "right" },
  resultText: { ...PLAIN, align: "left" },
  total: { ...TOTAL, align: "right" },
  totalText: { ...TOTAL, align: "left" },
};

/** Looks whose cells have a frame around each. */
export const FRAMED: ReadonlySet<Look> = new Set<Look>([
  "header",
  "input",
  "inputText",
  "result",
  "resultText",
  "total",
  "totalText",
]);
