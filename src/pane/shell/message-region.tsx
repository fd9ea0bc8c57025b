import type { Message } from "./message.js";

interface MessageRegionProps {
  readonly message: Message | null;
  readonly onDismiss: () => void;
}

/** Both regions stand in the page from the start, so that a screen reader notices what appears in them. */
export function MessageRegion({ message, onDismiss }: MessageRegionProps) {
  const text = (kind: Message["kind"]) =>
    message?.kind === kind && (
      <div class={`vs-message vs-message-${kind}`}>
        <p>{message.text}</p>
        <button type="button" class="vs-quiet" onClick={onDismiss}>
          Close<span class="vs-hidden"> this message</span>
        </button>
      </div>
    );
  return (
    <div class="vs-messages">
      <div role="status">{text("done")}</div>
      <div role="alert">{text("failed")}</div>
    </div>
  );
}
