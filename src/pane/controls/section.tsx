import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";

interface SectionProps {
  readonly title: string;
  readonly children: ComponentChildren;
}

/** A titled part of a tab. */
export function Section({ title, children }: SectionProps) {
  const id = useId();
  return (
    <section class="vs-section" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      {children}
    </section>
  );
}
