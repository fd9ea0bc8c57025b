/** One comparison of a benchmark: two figures of one run in one unit, and the ratio that they should keep to. */
export interface BenchRow {
  readonly name: string;
  readonly ours: number;
  readonly theirs: number;
  readonly unit: "ns" | "ms" | "s" | "MB" | "kB";
  /** Ours over theirs, at most; null where the row is for information. */
  readonly target: number | null;
}
