/** A few answers to one question, one of them or none chosen. */

import { Key } from "./Key";

interface Option<T> {
  value: T;
  name: string;
}

interface TogglesProps<T> {
  question: string;
  options: readonly Option<T>[];
  chosen: T | null;
  onChoose: (value: T) => unknown;
}

export function Toggles<T>({ question, options, chosen, onChoose }: TogglesProps<T>) {
  return (
    <fieldset class="toggles">
      <legend>{question}</legend>
      <div class="toggle-row">
        {options.map(({ value, name }) => (
          <Key key={name} pressed={chosen === value} onPress={() => onChoose(value)}>
            {name}
          </Key>
        ))}
      </div>
    </fieldset>
  );
}

/** The same, where any number of them may be chosen. */
export function Ticks<T>({
  question,
  options,
  chosen,
  onToggle,
}: {
  question: string;
  options: readonly Option<T>[];
  chosen: readonly T[];
  onToggle: (value: T) => unknown;
}) {
  return (
    <fieldset class="toggles">
      <legend>{question}</legend>
      <div class="toggle-row">
        {options.map(({ value, name }) => (
          <Key key={name} pressed={chosen.includes(value)} onPress={() => onToggle(value)}>
            {name}
          </Key>
        ))}
      </div>
    </fieldset>
  );
}
