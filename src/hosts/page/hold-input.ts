/**
 * Takes no input in these parts of the page until it is let go: what is typed into a workbook that is about to be replaced
 * would be lost. The focus goes back to where it was.
 *
 * @returns How to let go
 */
export function holdInput(parts: readonly HTMLElement[]): () => void {
  const { activeElement } = document;
  for (const part of parts) part.inert = true;
  return () => {
    for (const part of parts) part.inert = false;
    const isInside = parts.some((part) => part.contains(activeElement));
    if (isInside && activeElement instanceof HTMLElement && document.activeElement !== activeElement) {
      activeElement.focus();
    }
  };
}
