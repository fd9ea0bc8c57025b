interface ProblemStripProps {
  readonly isWaiting: boolean;
  readonly problems: ReadonlyMap<string, string>;
}

/** What holds the pane up and ends by itself; it stands in the page from the start, so that it is heard. */
export function ProblemStrip({ isWaiting, problems }: ProblemStripProps) {
  const texts = [...new Set(problems.values())];
  return (
    <div role="status">
      {isWaiting && (
        <p class="vs-strip vs-waiting">
          A cell is being edited. Press Enter or Escape in the sheet; Vanesheet then goes on.
        </p>
      )}
      {texts.map((text) => (
        <p key={text} class="vs-strip vs-problem">
          {text}
        </p>
      ))}
    </div>
  );
}
