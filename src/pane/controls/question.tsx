import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

interface QuestionProps {
  readonly label: string;
  readonly children: ComponentChildren;
  /** What the answers are, as buttons. */
  readonly answers: ComponentChildren;
}

/** Asks before something is lost: the focus comes to it, and goes back to where it was after the answer. */
export function Question({ label, children, answers }: QuestionProps) {
  const box = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const { activeElement } = document;
    box.current?.focus();
    return () => {
      if (activeElement instanceof HTMLElement && activeElement.isConnected) activeElement.focus();
    };
  }, []);
  return (
    <div ref={box} class="vs-ask" role="alertdialog" aria-label={label} tabIndex={-1}>
      {children}
      <div class="vs-buttons">{answers}</div>
    </div>
  );
}
