import {
  type BalanceBlock,
  chosenOptions,
  type TemplateId,
  type TemplateOptions,
  templateChoices,
} from "../../workbook/index.js";

/** What may be chosen of a template, and what a person chose. */
export interface ChoiceFields {
  /** Left out where there is nothing to choose. */
  readonly element?: HTMLElement;
  readonly options: () => TemplateOptions;
}

function pointsField(usual: number, most: number): { readonly label: HTMLElement; readonly select: HTMLSelectElement } {
  const label = document.createElement("label");
  const select = document.createElement("select");
  for (let points = 1; points <= most; points += 1) {
    select.append(new Option(String(points), String(points), points === usual, points === usual));
  }
  label.append("Readings for each outlet ", select);
  return { label, select };
}

function blockField(about: string): { readonly label: HTMLElement; readonly box: HTMLInputElement } {
  const label = document.createElement("label");
  const box = document.createElement("input");
  box.type = "checkbox";
  label.append(box, ` ${about}`);
  return { label, box };
}

/** Makes the fields behind a template in which its choices are made. */
export function choiceFields(template: TemplateId): ChoiceFields {
  const choices = templateChoices(template);
  const { points, blocks } = choices;
  if (points === null && blocks.length === 0) return { options: () => ({}) };
  const element = document.createElement("details");
  const summary = document.createElement("summary");
  summary.textContent = blocks.length > 0 ? "More readings and parts" : "More readings";
  element.append(summary);
  const field = points === null ? null : pointsField(points.usual, points.most);
  if (field !== null) element.append(field.label);
  const boxes = blocks.map(({ block, about }) => ({ block, ...blockField(about) }));
  element.append(...boxes.map(({ label }) => label));
  const chosenBlocks = (): readonly BalanceBlock[] => boxes.flatMap(({ block, box }) => (box.checked ? [block] : []));
  return {
    element,
    options: () =>
      chosenOptions(choices, { points: field === null ? null : Number(field.select.value), blocks: chosenBlocks() }),
  };
}
