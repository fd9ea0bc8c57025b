/** A text of a column's cells, and whether its rows are to be seen. */
export interface FilterValue {
  readonly text: string;
  readonly isShown: boolean;
}

/** What a person wants to see of a column: these texts, or every row. */
export type FilterAnswer = { readonly shown: readonly string[] } | "all";

const EMPTY = "(empty)";

function button(label: string, type: "submit" | "button", act?: () => void): HTMLButtonElement {
  const made = document.createElement("button");
  made.type = type;
  made.textContent = label;
  if (act !== undefined) made.addEventListener("click", act);
  return made;
}

function checkbox(text: string, isChecked: boolean): { readonly row: HTMLElement; readonly box: HTMLInputElement } {
  const row = document.createElement("label");
  const box = document.createElement("input");
  box.type = "checkbox";
  box.checked = isChecked;
  row.append(box, text);
  return { row, box };
}

/** Arrows, Home and End go through the boxes; a letter goes to the next that begins with it. */
function goByKeys(boxes: readonly HTMLInputElement[], texts: readonly string[], event: KeyboardEvent): void {
  const here = boxes.indexOf(document.activeElement as HTMLInputElement);
  if (here < 0 || event.ctrlKey || event.altKey || event.metaKey) return;
  const last = boxes.length - 1;
  const places: Readonly<Record<string, number>> = {
    ArrowDown: Math.min(here + 1, last),
    ArrowUp: Math.max(here - 1, 0),
    Home: 0,
    End: last,
  };
  const letter = event.key.length === 1 && event.key !== " " ? event.key.toLowerCase() : null;
  const begins = (index: number): boolean => texts[index]?.toLowerCase().startsWith(letter ?? "") === true;
  const found = letter === null ? undefined : [...texts.keys()].find((index) => index > here && begins(index));
  const next = letter === null ? places[event.key] : (found ?? [...texts.keys()].find(begins));
  if (next === undefined) return;
  event.preventDefault();
  boxes[next]?.focus();
}

/**
 * Asks which rows of a column are to be seen; null when the person turns away. Arrows go through the list, Space checks,
 * Enter shows, Escape leaves.
 */
export function askFilter(heading: string, values: readonly FilterValue[]): Promise<FilterAnswer | null> {
  return new Promise((resolve) => {
    const dialog = document.createElement("dialog");
    dialog.className = "question filter";
    const end = (answer: FilterAnswer | null): void => {
      dialog.close();
      dialog.remove();
      resolve(answer);
    };
    const title = document.createElement("h2");
    title.id = "filter-title";
    title.textContent = `Show rows by ${heading}`;
    dialog.setAttribute("aria-labelledby", title.id);
    const every = checkbox("All", false);
    const rows = values.map(({ text, isShown }) => checkbox(text === "" ? EMPTY : text, isShown));
    const boxes = [every.box, ...rows.map(({ box }) => box)];
    const countAll = (): void => {
      const count = rows.filter(({ box }) => box.checked).length;
      every.box.checked = count === rows.length;
      every.box.indeterminate = count > 0 && count < rows.length;
    };
    const list = document.createElement("div");
    list.className = "filter-values";
    list.setAttribute("role", "group");
    list.setAttribute("aria-labelledby", title.id);
    list.append(every.row, ...rows.map(({ row }) => row));
    list.addEventListener("change", ({ target }) => {
      if (target === every.box) for (const { box } of rows) box.checked = every.box.checked;
      countAll();
    });
    const texts = ["", ...values.map(({ text }) => text)];
    list.addEventListener("keydown", (event) => goByKeys(boxes, texts, event));
    const problem = document.createElement("p");
    problem.className = "problem";
    problem.setAttribute("role", "alert");
    const answers = document.createElement("div");
    answers.className = "answers";
    answers.append(
      button("Show these", "submit"),
      button("Show all rows", "button", () => end("all")),
      button("Cancel", "button", () => end(null)),
    );
    const form = document.createElement("form");
    form.append(title, list, problem, answers);
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const shown = values.filter((_, index) => rows[index]?.box.checked).map(({ text }) => text);
      if (shown.length === 0) problem.textContent = "Check at least one, or no row is left.";
      else end(shown.length === values.length ? "all" : { shown });
    });
    dialog.addEventListener("cancel", () => end(null));
    countAll();
    dialog.append(form);
    document.body.append(dialog);
    dialog.showModal();
    boxes[0]?.focus();
  });
}
