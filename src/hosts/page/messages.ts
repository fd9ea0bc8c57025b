/** A message of the spreadsheet engine to the person. */
export interface Notice {
  readonly text: string;
  readonly type: "danger" | "info" | "success" | "warning";
  readonly sticky: boolean;
  /** What the person may do about it at once. */
  readonly action?: { readonly label: string; readonly act: () => void };
}

/** How the engine speaks to the person, and how it asks. */
export interface Messages {
  readonly notifyUser: (notice: Notice) => void;
  readonly raiseError: (text: string, then?: () => void) => void;
  readonly askConfirmation: (text: string, confirm: () => void, cancel?: () => void) => void;
}

/** The engine's messages, and those of the page itself. */
export interface PageMessages extends Messages {
  /** Asks with buttons of these labels; null when the person turns away. */
  choose<Label extends string>(text: string, labels: readonly Label[]): Promise<Label | null>;
  /** Says what is going on and, when it takes long, for how many seconds; an empty text says that it is over. */
  busy(text: string, stop?: () => void): void;
  /** Asks for a text; null when the person turns away. `problemOf` says what is wrong with one, undefined for nothing. */
  ask(text: string, value: string, problemOf: (text: string) => string | undefined): Promise<string | null>;
  /** Says what was done and offers to take it back, until the next is done. */
  offer(text: string, action: NonNullable<Notice["action"]>): void;
  /** Takes notices away that were about the workbook before. */
  clear(): void;
}

const SHOWN_MS = 8000;

/** Closes a notice; the focus goes back to where it was before it came to the notices. */
function closeButton(entry: HTMLElement, cameFrom: () => HTMLElement | null): HTMLButtonElement {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "Close";
  button.addEventListener("click", () => {
    entry.remove();
    cameFrom()?.focus();
  });
  return button;
}

function stopButton(stop: () => void): HTMLButtonElement {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "stop";
  button.textContent = "Stop";
  button.addEventListener("click", stop);
  return button;
}

/** Opens a question or a message that must be answered; the browser keeps the focus inside it. */
function openDialog(
  text: string,
  answers: readonly (readonly [label: string, act: () => void])[],
  onEscape: () => void,
) {
  const dialog = document.createElement("dialog");
  dialog.className = "question";
  const words = document.createElement("p");
  words.id = "question-text";
  words.textContent = text;
  dialog.setAttribute("aria-labelledby", words.id);
  const row = document.createElement("div");
  row.className = "answers";
  for (const [label, act] of answers) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = label;
    button.addEventListener("click", () => {
      dialog.close();
      dialog.remove();
      act();
    });
    row.append(button);
  }
  dialog.addEventListener("cancel", () => {
    dialog.close();
    dialog.remove();
    onEscape();
  });
  dialog.append(words, row);
  document.body.append(dialog);
  dialog.showModal();
}

/** Asks for a text in a dialog. */
function askForText(
  text: string,
  value: string,
  problemOf: (text: string) => string | undefined,
  end: (answer: string | null) => void,
): void {
  const dialog = document.createElement("dialog");
  dialog.className = "question";
  const form = document.createElement("form");
  const label = document.createElement("label");
  label.textContent = text;
  const field = document.createElement("input");
  field.value = value;
  const problem = document.createElement("p");
  problem.className = "problem";
  problem.setAttribute("role", "alert");
  const close = (answer: string | null): void => {
    dialog.close();
    dialog.remove();
    end(answer);
  };
  const row = document.createElement("div");
  row.className = "answers";
  const [ok, cancel] = ["OK", "Cancel"].map((name) => {
    const button = document.createElement("button");
    button.textContent = name;
    button.type = name === "OK" ? "submit" : "button";
    return button;
  });
  if (ok !== undefined && cancel !== undefined) row.append(ok, cancel);
  cancel?.addEventListener("click", () => close(null));
  dialog.addEventListener("cancel", () => close(null));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const found = problemOf(field.value);
    problem.textContent = found ?? "";
    if (found === undefined) close(field.value.trim());
  });
  label.append(field);
  form.append(label, problem, row);
  dialog.append(form);
  document.body.append(dialog);
  dialog.showModal();
  field.select();
}

/**
 * Returns the page's way to speak: notices in a list that a screen reader reads out, questions in a dialog.
 *
 * @param list - Where notices appear
 * @param busy - Where stands what the page is doing
 */
export function messagesIn(list: HTMLElement, busy: HTMLElement): PageMessages {
  const nothing = () => undefined;
  const errorsOpen = new Set<string>();
  let cameFrom: HTMLElement | null = null;
  let offered: Element | null = null;
  let clock: ReturnType<typeof setInterval> | undefined;
  list.addEventListener("focusin", ({ relatedTarget }) => {
    if (relatedTarget instanceof HTMLElement && !list.contains(relatedTarget)) cameFrom = relatedTarget;
  });
  return {
    choose: (text, labels) =>
      new Promise((resolve) => {
        openDialog(
          text,
          labels.map((label) => [label, () => resolve(label)] as const),
          () => resolve(null),
        );
      }),
    busy(text, stop) {
      clearInterval(clock);
      busy.hidden = text === "";
      busy.textContent = text;
      if (text === "") return;
      const begun = Date.now();
      const seconds = document.createElement("span");
      // Whoever listens to the page hears once what is going on, not each second.
      seconds.setAttribute("aria-hidden", "true");
      busy.append(seconds);
      clock = setInterval(() => {
        if (stop !== undefined && seconds.textContent === "") busy.append(stopButton(stop));
        seconds.textContent = ` ${Math.round((Date.now() - begun) / 1000)} s`;
      }, 1000);
    },
    ask: (text, value, problemOf) => new Promise((resolve) => askForText(text, value, problemOf, resolve)),
    offer(text, action) {
      offered?.remove();
      this.notifyUser({ text, action, type: "success", sticky: true });
      offered = list.lastElementChild;
    },
    clear() {
      list.replaceChildren();
    },
    notifyUser({ text, type, sticky, action }) {
      const entry = document.createElement("div");
      entry.className = `notice ${type}`;
      const words = document.createElement("span");
      words.textContent = text;
      if (action !== undefined) {
        const button = document.createElement("button");
        button.type = "button";
        button.textContent = action.label;
        button.addEventListener("click", () => {
          entry.remove();
          action.act();
        });
        entry.append(button);
      }
      entry.prepend(words);
      entry.append(closeButton(entry, () => cameFrom));
      list.append(entry);
      if (!sticky) setTimeout(() => entry.remove(), SHOWN_MS);
    },
    raiseError(text, then = nothing) {
      // The engine says the same again when the message takes the focus from what is being typed.
      if (errorsOpen.has(text)) return;
      errorsOpen.add(text);
      const end = (): void => {
        errorsOpen.delete(text);
        then();
      };
      openDialog(text, [["OK", end]], end);
    },
    askConfirmation(text, confirm, cancel = nothing) {
      openDialog(
        text,
        [
          ["Yes", confirm],
          ["No", cancel],
        ],
        cancel,
      );
    },
  };
}
