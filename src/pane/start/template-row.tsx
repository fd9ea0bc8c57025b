import { useState } from "preact/hooks";
import {
  type BalanceBlock,
  chosenOptions,
  TEMPLATES,
  type TemplateId,
  type TemplateOptions,
  templateChoices,
} from "../../workbook/index.js";
import { ActionButton } from "../controls/action-button.js";
import { CheckField } from "../controls/check-field.js";
import { SelectField } from "../controls/select-field.js";

interface TemplateRowProps {
  readonly template: TemplateId;
  readonly onAdd: (options: TemplateOptions) => void;
  /** Adds it filled from the outlets of this workbook; left out where a template cannot be. */
  readonly onFill?: () => void;
}

/** A template, what may be chosen of it, and the button that adds it. */
export function TemplateRow({ template, onAdd, onFill }: TemplateRowProps) {
  const { title, description } = TEMPLATES[template]("");
  const choices = templateChoices(template);
  const [points, setPoints] = useState(choices.points?.usual ?? null);
  const [blocks, setBlocks] = useState<readonly BalanceBlock[]>([]);
  const counts = Array.from({ length: choices.points?.most ?? 0 }, (_, index) => String(index + 1));
  const hasChoices = choices.points !== null || choices.blocks.length > 0;
  return (
    <li>
      <div>
        <strong>{title}</strong>
        <p>{description}</p>
        {hasChoices && (
          <details>
            <summary>{choices.blocks.length > 0 ? "More readings and parts" : "More readings"}</summary>
            {points !== null && (
              <SelectField
                label="Readings for each outlet"
                choices={counts.map((count) => ({ value: count, label: count }))}
                value={String(points)}
                onChoose={(count) => setPoints(Number(count))}
              />
            )}
            {choices.blocks.map(({ block, about }) => (
              <CheckField
                key={block}
                label={about}
                isChecked={blocks.includes(block)}
                onChange={(isChecked) =>
                  setBlocks(isChecked ? [...blocks, block] : blocks.filter((other) => other !== block))
                }
              />
            ))}
          </details>
        )}
      </div>
      <div class="vs-template-actions">
        <ActionButton onPress={() => onAdd(chosenOptions(choices, { points, blocks }))}>
          Add<span class="vs-hidden"> {title}</span>
        </ActionButton>
        {onFill !== undefined && <ActionButton onPress={onFill}>Add, filled</ActionButton>}
      </div>
    </li>
  );
}
