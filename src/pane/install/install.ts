/*
 * The install page: checks the folder that it was served from and hands out the manifest for that very address.
 */
import { type Answer, checkFolder, functionsFor, manifestFor } from "./check-folder.js";

const address = location.href.replace(/[^/]*([?#].*)?$/, "");

async function ask(path: string): Promise<Answer> {
  const response = await fetch(path, { cache: "no-store", credentials: "omit" });
  return {
    status: response.status,
    isRedirected: response.redirected,
    header: (name) => response.headers.get(name),
    text: () => response.text(),
  };
}

function element(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`The install page has no ${id}.`);
  return found;
}

function row(what: string, isInOrder: boolean, help: string): HTMLElement {
  const item = document.createElement("li");
  item.className = isInOrder ? "good" : "bad";
  const mark = document.createElement("strong");
  mark.textContent = isInOrder ? "In order" : "To do";
  item.append(mark, ` ${what}.${help === "" ? "" : ` ${help}`}`);
  return item;
}

async function check(): Promise<void> {
  const list = element("checks");
  const verdict = element("verdict");
  list.replaceChildren();
  verdict.textContent = "Looking at the folder …";
  const checks = await checkFolder(address, ask);
  list.replaceChildren(...checks.map(({ what, isInOrder, help }) => row(what, isInOrder, help)));
  const open = checks.filter(({ isInOrder }) => !isInOrder).length;
  verdict.textContent =
    open === 0
      ? "The folder is ready."
      : `${open === 1 ? "One thing is" : `${open} things are`} to do before people use it.`;
}

function save(name: string, type: string, content: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([content], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

async function handOut(path: string, name: string, type: string, fill: (text: string, at: string) => string) {
  const said = element("said");
  try {
    const answer = await ask(path);
    if (answer.status !== 200) throw new Error(`the server answers ${answer.status}`);
    save(name, type, fill(await answer.text(), address));
    said.textContent = `${name} for ${address} is in your downloads.`;
  } catch (cause) {
    said.textContent = `${name} could not be made: ${cause instanceof Error ? cause.message : String(cause)}. Check the folder first.`;
  }
}

element("address").textContent = address;
element("again").addEventListener("click", () => void check());
element("manifest").addEventListener(
  "click",
  () => void handOut("manifest-template.xml", "manifest.xml", "application/xml", manifestFor),
);
element("functions").addEventListener(
  "click",
  () => void handOut("functions.json", "functions.json", "application/json", functionsFor),
);
void check();
