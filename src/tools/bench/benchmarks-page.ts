import { cpus, totalmem } from "node:os";
import type { BenchRow } from "./bench-row.js";

export interface BenchGroup {
  readonly title: string;
  /** What is compared with what, and how. */
  readonly explanation: string;
  readonly rows: readonly BenchRow[];
}

function figure(value: number): string {
  return value >= 100 ? value.toFixed(0) : value.toPrecision(3);
}

function verdict({ ours, theirs, target }: BenchRow): string {
  if (target === null) return "";
  return ours / theirs <= target ? `at most ${target}, met` : `at most ${target}, **missed**`;
}

function row(bench: BenchRow): string {
  const { name, ours, theirs, unit } = bench;
  return `| ${name} | ${figure(ours)} ${unit} | ${figure(theirs)} ${unit} | ${figure(ours / theirs)} | ${verdict(bench)} |`;
}

/** Says on what the figures were measured. */
export function machineText(): string {
  const processors = cpus();
  const memory = Math.round(totalmem() / 2 ** 30);
  return `${processors.length} cores (${processors[0]?.model ?? "unknown"}), ${memory} GB of memory, ${process.platform} ${process.arch}, Node ${process.versions.node}`;
}

/** Returns the table of one group, as it stands on the page and on the console. */
export function groupText({ title, explanation, rows }: BenchGroup): string {
  return [
    `## ${title}`,
    "",
    explanation,
    "",
    "| what | ours | the other | ratio | target |",
    "|---|--:|--:|--:|---|",
    ...rows.map(row),
    "",
  ].join("\n");
}

/** Returns docs/benchmarks.md. */
export function benchmarksPage(groups: readonly BenchGroup[], day: string): string {
  return [
    "# Benchmarks",
    "",
    `Written by \`npm run bench\` on ${day}, on one machine: ${machineText()}. Both figures of a row come from one run, so the ratio tells more than either.`,
    "",
    ...groups.map(groupText),
  ].join("\n");
}
