/** As often as the host is asked anew whether it is dark. */
const LOOK_AGAIN_MS = 5000;

/**
 * Makes the page light or dark as the host is, and as the system is where the host does not say; also when either
 * changes.
 *
 * @param isHostDark - Null where the host does not say
 */
export function followTheme(isHostDark: () => boolean | null): void {
  const system = matchMedia("(prefers-color-scheme: dark)");
  const follow = () => {
    document.documentElement.dataset["theme"] = (isHostDark() ?? system.matches) ? "dark" : "light";
  };
  follow();
  system.addEventListener("change", follow);
  addEventListener("focus", follow);
  setInterval(() => {
    if (document.visibilityState === "visible") follow();
  }, LOOK_AGAIN_MS);
}
