/** What a person chose in the page, as it stands in the fragment of its address, so that a link carries it. */

/** A number between two ends, in steps from the lower one. */
export interface NumberSetting {
  readonly key: string;
  readonly start: number;
  readonly least: number;
  readonly most: number;
  readonly step: number;
}

/** One of several texts. */
export interface ChoiceSetting {
  readonly key: string;
  readonly start: string;
  readonly options: readonly string[];
}

/** A text of a form, empty at the start. */
export interface TextSetting {
  readonly key: string;
  readonly form: RegExp;
}

/**
 * The settings of a page. What a link says is taken only where it fits the setting that asks for it; what is as at the
 * start is not written, so links stay short.
 */
export class State {
  private readonly said: URLSearchParams;

  /** @param fragment as in an address, with or without `#` */
  constructor(
    fragment: string,
    private readonly onChange: (fragment: string) => void = () => undefined,
  ) {
    this.said = new URLSearchParams(fragment.replace(/^#/u, ''));
  }

  number(setting: NumberSetting): number {
    const text = this.said.get(setting.key);
    const said = text === null || text.trim() === '' ? Number.NaN : Number(text);
    return Number.isFinite(said) ? within(setting, said) : setting.start;
  }

  choice({ key, start, options }: ChoiceSetting): string {
    const said = this.said.get(key);
    return said !== null && options.includes(said) ? said : start;
  }

  text({ key, form }: TextSetting): string {
    const said = this.said.get(key);
    return said !== null && form.test(said) ? said : '';
  }

  put({ key, start = '' }: { readonly key: string; readonly start?: number | string }, value: number | string): void {
    if (value === start) this.said.delete(key);
    else this.said.set(key, String(value));
    this.onChange(this.fragment);
  }

  /** With `#`; empty where all is as at the start. */
  get fragment(): string {
    const text = this.said.toString();
    return text === '' ? '' : `#${text}`;
  }
}

/** The nearest value that the setting can have. */
function within({ start, least, most, step }: NumberSetting, value: number): number {
  if (value === start) return start;
  const steps = Math.round((Math.min(most, Math.max(least, value)) - least) / step);
  return Number(Math.min(most, least + steps * step).toFixed(6));
}
