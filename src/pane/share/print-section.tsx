import { ActionButton } from "../controls/action-button.js";
import { Section } from "../controls/section.js";
import { usePane } from "../shell/pane-context.js";

/** How the sheet in front comes out on paper. */
export function PrintSection() {
  const { host, run } = usePane();
  const { setUpPrint } = host;
  if (setUpPrint === undefined) {
    return (
      <Section title="Print">
        <p>The button “Print” above the sheet, or Ctrl+P, prints the sheet in front, its header on every page.</p>
      </Section>
    );
  }
  const setUp = () =>
    void run(async () => {
      const sheet = await setUpPrint();
      return `“${sheet}” prints landscape, one page wide, its header on every page. Excel's own Print does the rest.`;
    });
  return (
    <Section title="Print">
      <p>Sheets from a template are set up already. For another one: landscape, one page wide, header on every page.</p>
      <div class="vs-buttons">
        <ActionButton onPress={setUp}>Set up the sheet in front</ActionButton>
      </div>
    </Section>
  );
}
