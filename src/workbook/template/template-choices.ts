import type { TemplateId } from "../host.js";
import {
  BALANCE_BLOCKS,
  type BalanceBlock,
  MOST_POINTS,
  type TemplateOptions,
  USUAL_POINTS,
} from "./template-options.js";

/** What a person may choose when a sheet is started from a template. */
export interface TemplateChoices {
  /** Reading columns of an outlet; null where the template has none. */
  readonly points: { readonly usual: number; readonly most: number } | null;
  /** Blocks that the plain sheet leaves out, and what each is for. */
  readonly blocks: readonly { readonly block: BalanceBlock; readonly about: string }[];
}

const BLOCKS = (Object.keys(BALANCE_BLOCKS) as readonly BalanceBlock[]).map((block) => ({
  block,
  about: BALANCE_BLOCKS[block],
}));

/** Says what may be chosen of a template. */
export function templateChoices(template: TemplateId): TemplateChoices {
  const usual = template in USUAL_POINTS ? USUAL_POINTS[template as keyof typeof USUAL_POINTS] : null;
  return {
    points: usual === null ? null : { usual, most: MOST_POINTS },
    blocks: template === "room-balance" ? BLOCKS : [],
  };
}

/** The options of a choice, without what the template has of its own. */
export function chosenOptions(
  { points }: TemplateChoices,
  chosen: { readonly points: number | null; readonly blocks: readonly BalanceBlock[] },
): TemplateOptions {
  const isUsual = chosen.points === null || chosen.points === points?.usual;
  return {
    ...(isUsual || chosen.points === null ? {} : { points: chosen.points }),
    ...(chosen.blocks.length === 0 ? {} : { blocks: chosen.blocks }),
  };
}

/** Whether a template is wanted as its file has it. */
export const isAsItsFile = (options: TemplateOptions): boolean => Object.keys(options).length === 0;
