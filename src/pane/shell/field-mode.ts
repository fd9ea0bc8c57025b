import { useEffect, useState } from "preact/hooks";

const EVENT = "vanesheet-field";

let isOn = false;

/** Says whether the pane fills the screen, for work on site. */
export function setFieldMode(isField: boolean): void {
  isOn = isField;
  dispatchEvent(new Event(EVENT));
}

/** Whether the pane fills the screen. */
export function useFieldMode(): boolean {
  const [isField, setField] = useState(isOn);
  useEffect(() => {
    const follow = (): void => setField(isOn);
    follow();
    addEventListener(EVENT, follow);
    return () => removeEventListener(EVENT, follow);
  }, []);
  return isField;
}
