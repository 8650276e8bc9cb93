import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { Facts } from '../facts.js';
import type { ChoiceSetting, NumberSetting, State } from '../state.js';

/** A value of the page, and what puts another one in its place, in the address too. */
export type Held<Value> = readonly [value: Value, put: (value: Value) => void];

export function useNumber(state: State, setting: NumberSetting): Held<number> {
  const [value, show] = useState(state.number(setting));
  return [
    value,
    (chosen) => {
      state.put(setting, chosen);
      show(state.number(setting));
    },
  ];
}

export function useChoice(state: State, setting: ChoiceSetting): Held<string> {
  const [value, show] = useState(state.choice(setting));
  return [
    value,
    (chosen) => {
      state.put(setting, chosen);
      show(chosen);
    },
  ];
}

/** The menu of strategies; the one that is chosen at first is the first, or the one named. */
export function strategySetting({ strategies }: Facts, key: string, start = strategies[0].name): ChoiceSetting {
  return { key, start, options: strategies.map(({ name }) => name) };
}

interface SliderProps {
  readonly setting: NumberSetting;
  readonly name: string;
  /** The value in words. */
  readonly said: (value: number) => string;
  readonly held: Held<number>;
}

/** A slider with its name and its value in words. */
export function Slider({ setting: { key, least, most, step }, name, said, held: [value, put] }: SliderProps) {
  return (
    <div>
      <label for={key}>
        {name} <output for={key}>{said(value)}</output>
      </label>
      <input
        type="range"
        id={key}
        min={least}
        max={most}
        step={step}
        value={value}
        aria-valuetext={said(value)}
        onInput={({ currentTarget }) => {
          put(currentTarget.valueAsNumber);
        }}
      />
    </div>
  );
}

interface MenuProps {
  readonly setting: ChoiceSetting;
  readonly name: string;
  readonly held: Held<string>;
}

/** A menu with its name, where there is more than one thing to choose. */
export function Menu({ setting: { key, options }, name, held: [value, put] }: MenuProps) {
  if (options.length === 1) return null;
  return (
    <div>
      <label for={key}>{name}</label>
      <select
        id={key}
        value={value}
        onChange={({ currentTarget }) => {
          put(currentTarget.value);
        }}
      >
        {options.map((text) => (
          <option>{text}</option>
        ))}
      </select>
    </div>
  );
}

interface ButtonProps {
  readonly onPress: () => void;
  readonly children: ComponentChildren;
}

export function Button({ onPress, children }: ButtonProps) {
  return (
    <button type="button" onClick={onPress}>
      {children}
    </button>
  );
}

interface TextProps {
  readonly children: ComponentChildren;
}

/** A line that a screen reader says when it changes. */
export function StatusLine({ children }: TextProps) {
  return (
    <p class="said" role="status" aria-live="polite">
      {children}
    </p>
  );
}

/** What a part teaches, in two sentences. */
export function KeyPoint({ children }: TextProps) {
  return (
    <div class="take">
      <h3>Key point</h3>
      <p>{children}</p>
    </div>
  );
}
