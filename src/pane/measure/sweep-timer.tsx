import { useEffect, useState } from "preact/hooks";
import type { MeasureAction } from "./measure-reducer.js";

interface SweepTimerProps {
  readonly startedAt: number;
  readonly dispatch: (action: MeasureAction) => void;
  readonly onStop: () => void;
}

const TICK_MS = 250;

/** One button starts and stops the time of a sweep: Space or Enter. It runs on while the pane is closed. */
export function SweepTimer({ startedAt, dispatch, onStop }: SweepTimerProps) {
  const isRunning = startedAt !== 0;
  const [now, setNow] = useState(() => Date.now());

  useEffect(() => {
    if (!isRunning) return;
    const timer = setInterval(() => setNow(Date.now()), TICK_MS);
    return () => clearInterval(timer);
  }, [isRunning]);

  function press(): void {
    const at = Date.now();
    setNow(at);
    dispatch({ type: isRunning ? "stop sweep" : "start sweep", at });
    if (isRunning) onStop();
  }

  const elapsed = isRunning ? Math.max(0, Math.floor((now - startedAt) / 1000)) : 0;
  return (
    <div class="vs-timer">
      <button type="button" class={isRunning ? "vs-button vs-main vs-running" : "vs-button vs-main"} onClick={press}>
        {isRunning ? "Stop the sweep" : "Start a sweep"}
      </button>
      <span class="vs-elapsed" role="timer" aria-label="Seconds of this sweep">
        {elapsed} s
      </span>
    </div>
  );
}
