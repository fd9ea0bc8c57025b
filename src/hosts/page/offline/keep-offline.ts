import type { PageMessages } from "../messages.js";
import { USE_NEW_VERSION } from "./new-version.js";

/** Says that there is a new version, and takes it when the person wants it: what was typed is kept already. */
function offerNewVersion(waiting: ServiceWorker, messages: PageMessages): void {
  messages.notifyUser({
    type: "info",
    sticky: true,
    text: "A new version of this page is here. What you typed stays.",
    action: {
      label: "Use it now",
      act() {
        navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
        waiting.postMessage(USE_NEW_VERSION);
      },
    },
  });
}

/** Lets the browser keep this page, so that it opens and works without its server; a new version is offered. */
export async function keepOffline(messages: PageMessages): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  try {
    const registration = await navigator.serviceWorker.register("service-worker.js", { updateViaCache: "none" });
    const offer = (): void => {
      // The first version replaces none.
      if (registration.waiting !== null && registration.active !== null)
        offerNewVersion(registration.waiting, messages);
    };
    offer();
    registration.addEventListener("updatefound", () => {
      const { installing } = registration;
      installing?.addEventListener("statechange", () => {
        if (installing.state === "installed") offer();
      });
    });
  } catch {
    // A browser that refuses loses nothing but the start without its server.
  }
}
