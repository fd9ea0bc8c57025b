const DUCT: readonly string[] = [
  "Before you drill: look for wiring, refrigerant lines, coils, dampers and lining. Never drill a flue, a gas pipe or a fire-rated wall. Old tape, wrap or board may hold asbestos: stop and ask. Plug every hole.",
  "Fans and belts: lock out and tag out before hands go near.",
];

const LADDER = "Ladder: firm ground, three points of contact, do not reach out.";

const EVERYWHERE: readonly string[] = [
  "Combustion appliances: after any change of dampers, fans or returns have spillage and carbon monoxide tested.",
  "Local codes and licensed practice come first.",
];

/** What can hurt someone at this work, in few words. */
export function Cautions({ kind }: { readonly kind: "duct" | "face" }) {
  const cautions = kind === "duct" ? [...DUCT, LADDER, ...EVERYWHERE] : [LADDER, ...EVERYWHERE];
  return (
    <details class="vs-details vs-caution">
      <summary>{kind === "duct" ? "Take care: drilling, fans, ladders" : "Take care: ladders, appliances"}</summary>
      <ul>
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </details>
  );
}
