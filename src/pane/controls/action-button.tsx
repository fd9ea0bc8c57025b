import type { ComponentChildren } from "preact";
import { usePane } from "../shell/pane-context.js";

interface ActionButtonProps {
  readonly children: ComponentChildren;
  readonly onPress: () => void;
  /** The one that leads on, among several. */
  readonly isMain?: boolean;
  /** Whether there is nothing yet to do it with. */
  readonly isIdle?: boolean;
  /** Whether it waits for something else than the pane's work on the workbook. */
  readonly isWaiting?: boolean;
}

/**
 * A button that waits while the pane works on the workbook.
 *
 * It does not become disabled for that time: a disabled button loses the focus, and the keyboard its place in the pane.
 */
export function ActionButton({
  children,
  onPress,
  isMain = false,
  isIdle = false,
  isWaiting = false,
}: ActionButtonProps) {
  const { isBusy } = usePane();
  const isHeld = isBusy || isWaiting;
  return (
    <button
      type="button"
      class={isMain ? "vs-button vs-main" : "vs-button"}
      disabled={isIdle}
      aria-disabled={isHeld}
      onClick={() => {
        if (!isHeld) onPress();
      }}
    >
      {children}
    </button>
  );
}
