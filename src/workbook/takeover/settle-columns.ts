import type { ListColumnKey } from "../lists/index.js";
import { contentKey, type Draft, quotedHeading } from "./column-draft.js";

/** Sweeps have their seconds beside; an airflow as left alone is simply the airflow. */
export function settled(drafts: readonly Draft[]): void {
  const readings = drafts.filter(({ content }) => content?.key === "reading");
  const of = (holds: string) => readings.filter(({ content }) => content?.key === "reading" && content.holds === holds);
  const [seconds, velocities] = [of("seconds"), of("velocity")];
  if (seconds.length > 0 && seconds.length === velocities.length) {
    for (const draft of velocities) draft.content = { key: "reading", state: "now", holds: "sweep" };
  } else if (seconds.length > 0 && of("sweep").length !== seconds.length) {
    for (const draft of seconds) {
      draft.content = null;
      draft.question = "There are not as many columns of seconds as of sweeps. What does this column hold?";
    }
  }
  const keys = new Set(drafts.flatMap(({ content }) => (content === null ? [] : [contentKey(content)])));
  const rename = (from: ListColumnKey, to: ListColumnKey) => {
    for (const draft of drafts) if (draft.content?.key === from) draft.content = { key: to };
  };
  const states = new Set(of("velocity").map(({ content }) => (content?.key === "reading" ? content.state : "now")));
  if (keys.has("found") && !keys.has("left") && keys.has("airflow")) {
    rename("airflow", "left");
    rename("percent", "leftPercent");
  } else if (keys.has("left") && !keys.has("found"))
    rename(keys.has("airflow") ? "airflow" : "left", keys.has("airflow") ? "found" : "airflow");
  else if (keys.has("found") && !keys.has("left")) rename("found", "airflow");
  if (keys.has("leftPercent") && !keys.has("foundPercent") && !(keys.has("found") && keys.has("left")))
    rename("leftPercent", "percent");
  const isTwo = drafts.some(({ content }) => content?.key === "left");
  if (states.size === 1 && !states.has("now") && !isTwo) {
    for (const draft of readings)
      if (draft.content?.key === "reading") draft.content = { ...draft.content, state: "now" };
  }
}

/** A single average that a person typed is the one reading that there is. */
export function averagesAsReadings(drafts: readonly Draft[]): void {
  if (drafts.some(({ content }) => content?.key === "reading")) return;
  for (const draft of drafts) {
    const { values, heading } = draft;
    if (heading.read?.meaning !== "average" || values.formulaCount > 0) continue;
    draft.content = { key: "reading", state: "now", holds: "velocity" };
    draft.reason = `${quotedHeading(heading.shown)}, typed, and no single readings`;
  }
}

/** A length is the width where a width or a height is beside it: of length and width the width is the height. */
export function sidesByLength(drafts: readonly Draft[]): void {
  const sides = drafts.filter(({ content }) => content?.key === "width" || content?.key === "height");
  const [first, second] = sides;
  if (sides.length !== 2 || first === undefined || second === undefined) return;
  const isLength = ({ heading }: Draft) => heading.read?.meaning === "length";
  if (isLength(first) === isLength(second)) return;
  for (const draft of sides) draft.content = { key: isLength(draft) ? "width" : "height" };
}
