import { element } from './dom.js';
import type { ChoiceSetting, NumberSetting, State } from './state.js';

/** A slider with its name and its value in words; `changed` is called at every step of it. */
export function slider(
  state: State,
  setting: NumberSetting,
  name: string,
  said: (value: number) => string,
  changed: () => void,
): HTMLElement {
  const value = state.number(setting);
  const input = element('input', {
    type: 'range',
    id: setting.key,
    min: setting.least,
    max: setting.most,
    step: setting.step,
  });
  input.value = String(value);
  const output = element('output', { for: setting.key, id: `${setting.key}-said` }, said(value));
  input.setAttribute('aria-valuetext', said(value));
  input.addEventListener('input', () => {
    const chosen = input.valueAsNumber;
    state.put(setting, chosen);
    output.textContent = said(chosen);
    input.setAttribute('aria-valuetext', said(chosen));
    changed();
  });
  return element('div', {}, element('label', { for: setting.key }, name, ' ', output), input);
}

/** A menu with its name. */
export function menu(state: State, setting: ChoiceSetting, name: string, changed: () => void): HTMLElement {
  const select = element('select', { id: setting.key }, ...setting.options.map((text) => element('option', {}, text)));
  select.value = state.choice(setting);
  select.addEventListener('change', () => {
    state.put(setting, select.value);
    changed();
  });
  return element('div', {}, element('label', { for: setting.key }, name), select);
}

/** A line that a screen reader says when it changes. */
export function statusLine(): HTMLElement {
  return element('p', { class: 'said', role: 'status', 'aria-live': 'polite' });
}

/** What a part teaches, in two sentences. */
export function keyPoint(text: HTMLParagraphElement): HTMLElement {
  return element('div', { class: 'take' }, element('h3', {}, 'Key point'), text);
}

/** Calls once a slider rests a moment, not at every step of its way. */
export function atRest(call: () => void): () => void {
  let soon: ReturnType<typeof setTimeout> | undefined;
  return () => {
    clearTimeout(soon);
    soon = setTimeout(call, 120);
  };
}
