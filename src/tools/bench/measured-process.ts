import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync, readdirSync, readFileSync } from "node:fs";

/** How a process of its own went. */
export interface MeasuredProcess {
  /** From its start to its end, loading included. */
  readonly seconds: number;
  /** What all its threads and children took of the processors; undefined where the system has no shell to say it. */
  readonly processorSeconds: number | undefined;
  /** The largest that it and its children grew, together; undefined where the system does not say. */
  readonly peakMegabytes: number | undefined;
  readonly out: string;
}

const LOOK_EVERY_MS = 100;

/** Text of a file that the Linux kernel keeps of a process; empty once the process has ended. */
function kept(processId: number, name: string): string {
  try {
    return readFileSync(`/proc/${processId}/${name}`, "utf8");
  } catch {
    return "";
  }
}

/** Returns the children of a process; any of its threads may have started one. */
function childrenOf(processId: number): readonly number[] {
  const threads = existsSync(`/proc/${processId}/task`) ? readdirSync(`/proc/${processId}/task`) : [];
  return threads.flatMap((thread) => kept(processId, `task/${thread}/children`).match(/\d+/g) ?? []).map(Number);
}

/** Keeps for a process and each of its descendants the largest that it has been. */
function watchMemory(root: number): { look(): void; megabytes(): number | undefined } {
  const peaks = new Map<number, number>();
  return {
    look() {
      const open = [root];
      for (let id = open.pop(); id !== undefined; id = open.pop()) {
        const kilobytes = /^VmHWM:\s*(\d+)/m.exec(kept(id, "status"))?.[1];
        if (kilobytes !== undefined) peaks.set(id, Number(kilobytes));
        open.push(...childrenOf(id));
      }
    },
    megabytes() {
      const total = [...peaks.values()].reduce((sum, peak) => sum + peak, 0);
      return total === 0 ? undefined : total / 1024;
    },
  };
}

/** Runs a program and ends with its status, after the shell's word on the processor time of its children. */
const TIMED = '"$0" "$@"; status=$?; times >&2; exit $status';
const HAS_SHELL = process.platform !== "win32";

/** Reads the shell's last line, `1m2.345s 0m0.678s`: of the user and of the system. */
function processorSecondsOf(complained: string): number | undefined {
  const [, ...parts] = /(\d+)m([\d.]+)s (\d+)m([\d.]+)s\s*$/.exec(complained) ?? [];
  if (parts.length !== 4) return undefined;
  const [userMinutes = 0, user = 0, systemMinutes = 0, system = 0] = parts.map(Number);
  return 60 * (userMinutes + systemMinutes) + user + system;
}

/**
 * Runs a program to its end and measures it.
 *
 * @param endings - The statuses with which it may end
 * @throws {Error} When it ends with another status, with what it said
 */
export async function measuredProcess(
  program: string,
  args: readonly string[],
  endings: readonly number[] = [0],
): Promise<MeasuredProcess> {
  const start = performance.now();
  const [command, given] = HAS_SHELL ? ["sh", ["-c", TIMED, program, ...args]] : [program, args];
  const child = spawn(command, given, { stdio: ["ignore", "pipe", "pipe"] });
  const said: Buffer[] = [];
  const complained: Buffer[] = [];
  child.stdout.on("data", (piece: Buffer) => said.push(piece));
  child.stderr.on("data", (piece: Buffer) => complained.push(piece));
  const memory = watchMemory(child.pid ?? 0);
  const timer = setInterval(() => memory.look(), LOOK_EVERY_MS);
  try {
    const [status] = (await once(child, "close")) as [number | null];
    const seconds = (performance.now() - start) / 1000;
    if (status === null || !endings.includes(status))
      throw new Error(`${program} ended with ${status}. ${Buffer.concat(complained)}`);
    const processorSeconds = HAS_SHELL ? processorSecondsOf(Buffer.concat(complained).toString()) : undefined;
    return { seconds, processorSeconds, peakMegabytes: memory.megabytes(), out: Buffer.concat(said).toString() };
  } finally {
    clearInterval(timer);
  }
}
