/** A change of rows or sheets, after which the grid began anew and knows nothing of what was before. */
export interface Step {
  /** What was done, in words. */
  readonly text: string;
  /** Shows the workbook as it was. */
  readonly goBack: () => Promise<void>;
}

/** What can be taken back beyond what the grid itself knows. */
export interface History {
  readonly add: (step: Step) => void;
  /** Takes the last step back; returns it, or null where there is none. */
  readonly takeBack: () => Promise<Step | null>;
  /** Whether rows or sheets were changed since the workbook was opened, so that the grid began anew. */
  readonly hasBegunAnew: () => boolean;
  readonly canTakeBack: () => boolean;
  /** Another workbook is in view. */
  readonly clear: () => void;
}

/** Each step holds a whole workbook. */
const MOST_STEPS = 3;

export function makeHistory(): History {
  let steps: readonly Step[] = [];
  let isAnew = false;
  return {
    add(step) {
      steps = [...steps, step].slice(-MOST_STEPS);
      isAnew = true;
    },
    async takeBack() {
      const step = steps.at(-1);
      if (step === undefined) return null;
      // Whatever goes back shows a workbook, which must not forget the steps before.
      steps = steps.slice(0, -1);
      await step.goBack();
      return step;
    },
    hasBegunAnew: () => isAnew,
    canTakeBack: () => steps.length > 0,
    clear() {
      steps = [];
      isAnew = false;
    },
  };
}
