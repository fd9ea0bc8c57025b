import { demonstrationPlan, TEMPLATES, type TemplateId, type TemplateOptions } from "../../workbook/index.js";
import { addTemplateTo } from "./add-template.js";
import { choiceFields } from "./choice-fields.js";
import { openDemonstration } from "./open-demonstration.js";
import { mayReplace } from "./open-file.js";
import { attempt, type PageContext, showFile } from "./page-context.js";
import { chosenTemplate } from "./template-bytes.js";

type Choice =
  | { readonly kind: "demo" }
  | { readonly kind: "start" | "add"; readonly template: TemplateId; readonly options: TemplateOptions };

function button(label: string, name: string, act: () => void): HTMLButtonElement {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = label;
  made.setAttribute("aria-label", `${label}: ${name}`);
  made.addEventListener("click", act);
  return made;
}

function row(title: string, about: string, buttons: readonly HTMLElement[], more?: HTMLElement): HTMLElement {
  const made = document.createElement("li");
  const words = document.createElement("div");
  const name = document.createElement("b");
  name.textContent = title;
  const line = document.createElement("p");
  line.textContent = about;
  words.append(name, line, ...(more === undefined ? [] : [more]));
  made.append(words, ...buttons);
  return made;
}

/** Asks what to start with; null when the person turns away. */
function choose(): Promise<Choice | null> {
  return new Promise((resolve) => {
    const dialog = document.createElement("dialog");
    dialog.className = "question templates";
    dialog.setAttribute("aria-labelledby", "templates-title");
    const end = (choice: Choice | null): void => {
      dialog.close();
      dialog.remove();
      resolve(choice);
    };
    const title = document.createElement("h2");
    title.id = "templates-title";
    title.textContent = "Start a workbook, or add sheets to the open one";
    const list = document.createElement("ul");
    for (const template of Object.keys(TEMPLATES) as TemplateId[]) {
      const plan = TEMPLATES[template]("");
      const fields = choiceFields(template);
      list.append(
        row(
          plan.title,
          plan.description,
          [
            button("Start", plan.title, () => end({ kind: "start", template, options: fields.options() })),
            button("Add", plan.title, () => end({ kind: "add", template, options: fields.options() })),
          ],
          fields.element,
        ),
      );
    }
    const { title: demonstration, description } = demonstrationPlan();
    list.append(row(demonstration, description, [button("Start", demonstration, () => end({ kind: "demo" }))]));
    const cancel = document.createElement("div");
    cancel.className = "answers";
    cancel.append(button("Cancel", "nothing is started", () => end(null)));
    dialog.addEventListener("cancel", () => end(null));
    // The first thing that somebody wants is to start, not to ask for more readings.
    list.querySelector("button")?.setAttribute("autofocus", "");
    dialog.append(title, list, cancel);
    document.body.append(dialog);
    dialog.showModal();
  });
}

async function startFrom(context: PageContext, template: TemplateId, options: TemplateOptions): Promise<void> {
  const name = `${TEMPLATES[template]("").title}.xlsx`;
  const bytes = await chosenTemplate(template, options);
  const conversion = await context.run("read", bytes, name);
  if (await mayReplace(context)) await showFile(context, { name, bytes, handle: null }, conversion, false);
}

/** Lets the person start from a template or the demonstration, or add a template's sheets to the open workbook. */
export async function startNew(context: PageContext): Promise<void> {
  const choice = await choose();
  if (choice === null) return;
  await attempt(context, "Opening the template …", async () => {
    if (choice.kind === "start") await startFrom(context, choice.template, choice.options);
    else if (choice.kind === "add") await addTemplateTo(context, choice.template, choice.options, chosenTemplate);
    else await openDemonstration(context, () => mayReplace(context));
  });
}
