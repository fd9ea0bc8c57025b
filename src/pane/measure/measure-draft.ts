/** A timed sweep as typed. */
export interface TypedSweep {
  readonly velocity: string;
  readonly seconds: string;
}

/** Readings as typed, by place: `2.5` is the fifth point of the second line. An empty text was not taken. */
export type TypedReadings = Readonly<Record<string, string>>;

/** Everything that is typed on the tab, as typed. It survives JSON. */
export interface MeasureDraft {
  readonly kind: "duct" | "face";
  readonly shape: "round" | "rectangular" | "flat oval";
  /** Width of a rectangle, a diameter, or one side of a flat oval. */
  readonly width: string;
  readonly height: string;
  readonly factorBasis: "published" | "effective area" | "unknown" | "open";
  readonly factor: string;
  readonly effectiveArea: string;
  readonly rule: "log" | "equal area";
  readonly wall: string;
  /** Straight duct from the last fitting, and to the next. */
  readonly upstream: string;
  readonly downstream: string;
  /** Average angle of the flow to the axis of the duct. */
  readonly angle: string;
  /** Empty where the usual number is taken. */
  readonly ductLines: string;
  readonly ductPoints: string;
  readonly method: "points" | "sweeps";
  readonly faceLines: string;
  readonly facePoints: string;
  readonly ductReadings: TypedReadings;
  readonly faceReadings: TypedReadings;
  /** Which point of the plan is being read, from 0, and what stands in its field. */
  readonly place: number;
  readonly typed: string;
  readonly sweeps: readonly TypedSweep[];
  /** When the running sweep began, in milliseconds since 1970; 0 while none runs. */
  readonly sweepStartedAt: number;
  /** Whether all of it was put into the sheet, and nothing was changed since. */
  readonly isInSheet: boolean;
}

export const EMPTY_MEASUREMENT: MeasureDraft = {
  kind: "duct",
  shape: "round",
  width: "",
  height: "",
  factorBasis: "unknown",
  factor: "",
  effectiveArea: "",
  rule: "log",
  wall: "",
  upstream: "",
  downstream: "",
  angle: "",
  ductLines: "",
  ductPoints: "",
  method: "points",
  faceLines: "",
  facePoints: "",
  ductReadings: {},
  faceReadings: {},
  place: 0,
  typed: "",
  sweeps: [],
  sweepStartedAt: 0,
  isInSheet: false,
};

/** The part of the draft that holds the readings of what is measured. */
export function readingsOf(draft: MeasureDraft): TypedReadings {
  return draft.kind === "duct" ? draft.ductReadings : draft.faceReadings;
}
