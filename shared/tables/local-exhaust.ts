/** A least exhaust airflow: a plain airflow, or air changes of the room. */
export type LocalExhaustRule = ({ readonly leastCfm: number } | { readonly leastChangesPerHour: number }) & {
  readonly room: "kitchen" | "bath";
  readonly operation: "on demand" | "continuous";
  readonly note: string;
  readonly source: string;
  readonly standing: "read" | "derived" | "common practice" | "from memory";
};

/** Least local exhaust, each row with the rule that it comes from; the local code decides which one binds. */
export const LOCAL_EXHAUST = {
  "kitchen-on-demand": {
    room: "kitchen",
    operation: "on demand",
    leastCfm: 100,
    note: "Range hood. Later editions ask 300 cfm of an exhaust other than a hood (from memory, unverified).",
    source: "ASHRAE 62.2 local exhaust, as told by a glossary page",
    standing: "read",
  },
  "kitchen-continuous": {
    room: "kitchen",
    operation: "continuous",
    leastChangesPerHour: 5,
    note: "Enclosed kitchen only.",
    source: "ASHRAE 62.2 local exhaust, as told by a glossary page",
    standing: "read",
  },
  "bath-on-demand": {
    room: "bath",
    operation: "on demand",
    leastCfm: 50,
    note: "",
    source: "ASHRAE 62.2 local exhaust, as told by a glossary page",
    standing: "read",
  },
  "bath-continuous": {
    room: "bath",
    operation: "continuous",
    leastCfm: 20,
    note: "",
    source: "ASHRAE 62.2 local exhaust, as told by a glossary page",
    standing: "read",
  },
  "manufactured-home-kitchen": {
    room: "kitchen",
    operation: "on demand",
    leastCfm: 100,
    note: "Within 10 ft of the range.",
    source: "24 CFR 3280.103",
    standing: "read",
  },
  "manufactured-home-bath": {
    room: "bath",
    operation: "on demand",
    leastCfm: 50,
    note: "Each bath and each toilet compartment.",
    source: "24 CFR 3280.103",
    standing: "read",
  },
} as const satisfies Record<string, LocalExhaustRule>;

/** A row of the local exhaust table. */
export type LocalExhaustKind = keyof typeof LOCAL_EXHAUST;
