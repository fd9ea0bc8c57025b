/** Where there is no room for a grid, or a finger in place of a mouse. */
const FIELD_SIZES = "(max-width: 900px), (pointer: coarse)";

const KEY = "vanesheet-field-view";

/** The way between the grid and the field view. */
export interface FieldView {
  readonly toggle: () => void;
}

function keptChoice(): string | null {
  try {
    return sessionStorage.getItem(KEY);
  } catch {
    return null;
  }
}

function keepChoice(isField: boolean): void {
  try {
    sessionStorage.setItem(KEY, isField ? "field" : "grid");
  } catch {
    // The screen decides next time.
  }
}

/**
 * Shows the pane in place of the grid where the screen is small or touched, until the person chooses otherwise.
 *
 * @param button - Goes from the one to the other
 * @param onField - Called when the field view comes and goes: the pane turns to the outlets and back
 */
export function fieldViewBy(button: HTMLElement, pane: HTMLElement, onField: (isField: boolean) => void): FieldView {
  const sizes = window.matchMedia(FIELD_SIZES);
  let isField = false;
  const show = (next: boolean): void => {
    const wasField = isField;
    isField = next;
    document.body.classList.toggle("field", isField);
    button.textContent = isField ? "Grid" : "Field view";
    onField(isField);
    if (isField) pane.hidden = false;
    else if (wasField) pane.hidden = true;
    // The grid measures its place when the window does.
    if (isField !== wasField) window.dispatchEvent(new Event("resize"));
  };
  const bySize = (): void => {
    const kept = keptChoice();
    show(kept === null ? sizes.matches : kept === "field");
  };
  const toggle = (): void => {
    keepChoice(!isField);
    show(!isField);
  };
  sizes.addEventListener("change", bySize);
  button.addEventListener("click", toggle);
  bySize();
  return { toggle };
}
