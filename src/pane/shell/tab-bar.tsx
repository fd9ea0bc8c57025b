import { useRef } from "preact/hooks";
import type { Tab } from "./tab.js";
import { tabAfterKey } from "./tab-after-key.js";

interface TabBarProps {
  readonly tabs: readonly Tab[];
  readonly current: string;
  readonly onChoose: (id: string) => void;
}

export const tabId = (id: string) => `pane-tab-${id}`;
export const panelId = (id: string) => `pane-panel-${id}`;

/** The tabs by the pattern of the ARIA Authoring Practices: one Tab stop, arrow keys between them. */
export function TabBar({ tabs, current, onChoose }: TabBarProps) {
  const bar = useRef<HTMLDivElement>(null);

  function onKeyDown(event: KeyboardEvent): void {
    const ids = tabs.map(({ id }) => id);
    const next = tabAfterKey(ids, current, event.key);
    if (next === null) return;
    event.preventDefault();
    onChoose(next);
    bar.current?.querySelector<HTMLElement>(`#${tabId(next)}`)?.focus();
  }

  return (
    <div class="vs-tabs" role="tablist" aria-label="Steps of the work" ref={bar} onKeyDown={onKeyDown}>
      {tabs.map(({ id, label, Label }) => (
        <button
          key={id}
          type="button"
          role="tab"
          id={tabId(id)}
          class="vs-tab"
          aria-selected={id === current}
          aria-controls={panelId(id)}
          tabIndex={id === current ? 0 : -1}
          onClick={() => onChoose(id)}
        >
          {Label === undefined ? label : <Label />}
        </button>
      ))}
    </div>
  );
}
