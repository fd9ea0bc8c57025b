/** The parts of the page that code writes to. */
export interface PageElements {
  readonly title: HTMLElement;
  readonly cell: HTMLElement;
  /** What the selected row comes to. */
  readonly row: HTMLElement;
  readonly kept: HTMLElement;
  readonly actions: HTMLElement;
  readonly open: HTMLElement;
  readonly save: HTMLElement;
  readonly saveCopy: HTMLElement;
  readonly newWorkbook: HTMLElement;
  readonly handOff: HTMLElement;
  readonly print: HTMLElement;
  readonly busy: HTMLElement;
  readonly hint: HTMLElement;
  /** What a filter hides. */
  readonly filtered: HTMLElement;
  readonly drop: HTMLElement;
  readonly printed: HTMLElement;
  readonly fieldToggle: HTMLElement;
  readonly paneToggle: HTMLElement;
  readonly pane: HTMLElement;
  readonly workbook: HTMLElement;
  readonly strip: HTMLElement;
  readonly stripText: HTMLElement;
  readonly stripGo: HTMLElement;
  readonly messages: HTMLElement;
  /** What is said beside a cell. */
  readonly note: HTMLElement;
}

function element(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`The page has no element “${id}”.`);
  return found;
}

export function pageElements(): PageElements {
  return {
    title: element("title"),
    cell: element("cell"),
    row: element("row"),
    kept: element("kept"),
    actions: element("actions"),
    open: element("open"),
    save: element("save"),
    saveCopy: element("save-copy"),
    newWorkbook: element("new"),
    handOff: element("hand-off"),
    print: element("print"),
    busy: element("busy"),
    hint: element("hint"),
    filtered: element("filtered"),
    drop: element("drop"),
    printed: element("printed"),
    fieldToggle: element("field-toggle"),
    paneToggle: element("pane-toggle"),
    pane: element("pane"),
    workbook: element("workbook"),
    strip: element("strip"),
    stripText: element("strip-text"),
    stripGo: element("strip-go"),
    messages: element("messages"),
    note: element("note"),
  };
}
