import { describePath } from '../../scenario/describe.js';
import { impossibleIn } from '../../scenario/checks/impossible.js';
import { withSpread } from '../../scenario/ends.js';
import { type LoadedScenario, type PathValue, withOwnValues, withValues } from '../../scenario/load.js';
import type { Setting } from '../../scenario/ranges.js';
import type { Reading } from '../../scenario/quantity.js';
import { show } from '../../scenario/show.js';
import { numbersOf, RANGE_HELP, type RangePart, readRange, type Span, written } from './range.js';

/** A value of the scenario that a study varies, with the settings that it is given. Plain data. */
export interface Varied {
  /** As the scenario's register has it. */
  readonly path: string;
  /** What the value is, in words. */
  readonly description: string;
  /** Whole numbers, real numbers, or settings without an order. */
  readonly kind: 'whole' | 'real' | 'choice';
  /** What is tried, in the order given. */
  readonly settings: readonly Setting[];
  /** The ends and the unit of what may be tried between settings; null for a choice. */
  readonly span: Span | null;
}

/** A scenario with one or several values changed, or why that is none. */
export type Applied =
  { readonly ok: true; readonly scenario: LoadedScenario } | { readonly ok: false; readonly message: string };

/** How a setting is written: `20 images`, `none`. */
export function settingText(setting: Setting): string {
  return setting === null ? 'none' : String(setting);
}

/**
 * The scenario with these settings at the paths, all in one. Where a strategy is named, it alone follows them, whatever it
 * says there itself; else they are put into the shared part, which strategies that set the same value do not follow. The spread of a
 * step's time goes along in proportion with its usual time, as at the ends of its range, where it is not set itself.
 */
export function applySettings(
  loaded: LoadedScenario,
  settings: readonly (readonly [path: string, setting: Setting])[],
  strategy: string | null = null,
): Applied {
  const values = withSpread(
    registerOf(loaded, strategy),
    settings.map(([path, value]) => ({ path, value })),
  );
  const isOwn = ({ path }: PathValue) => strategy !== null && !path.startsWith('strategies.');
  const shared = withValues(
    loaded,
    values.filter((each) => !isOwn(each)),
  );
  const changed =
    shared.ok && strategy !== null ? withOwnValues(shared.scenario, strategy, values.filter(isOwn)) : shared;
  if (!changed.ok) return changed;
  const { scenario } = changed;
  const strategies = scenario.strategies.filter(({ name }) => strategy === null || name === strategy);
  const impossible = impossibleIn({ strategies });
  return impossible === null ? { ok: true, scenario } : { ok: false, message: impossible };
}

/** The register as a strategy has it: what it sets itself comes before what is shared. */
function registerOf({ register }: LoadedScenario, strategy: string | null): LoadedScenario['register'] {
  if (strategy === null) return register;
  const start = `strategies.${strategy}.set.`;
  const own = register.filter(({ path }) => path.startsWith(start));
  return [...own.map((entry) => ({ ...entry, path: entry.path.slice(start.length) })), ...register];
}

/**
 * Reads `PATH=RANGE`, such as `rules.after=5..60 images by 5`, and tries each setting on the scenario.
 * @param strategy whose own value it is; null for the shared part
 */
export function readVaried(loaded: LoadedScenario, text: string, strategy: string | null = null): Reading<Varied> {
  const at = text.indexOf('=');
  if (at < 1) return { ok: false, message: `read ${show(text)}; PATH=RANGE is wanted, where RANGE is ${RANGE_HELP}` };
  const path = text.slice(0, at).trim();
  const parts = readRange(text.slice(at + 1).trim());
  if (!parts.ok) return { ok: false, message: `${path}: ${parts.message}` };
  const refuse = (message: string): Reading<Varied> => ({
    ok: false,
    message: message.startsWith('unknown path ') ? message : `${path}: ${message}`,
  });
  const isWhole = parts.value.every((part) => isWholeIn(loaded, path, part, strategy));
  const settings = parts.value.flatMap((part) => settingsOf(part, isWhole));
  const [first] = settings;
  for (const setting of settings) {
    const applied = applySettings(loaded, [[path, setting]], strategy);
    if (!applied.ok) return refuse(settings.length === 1 ? applied.message : atSetting(setting, applied.message));
  }
  const shown = applySettings(loaded, [[path, settings.find((setting) => setting !== null) ?? first]], strategy);
  const place = strategy === null || path.startsWith('strategies.') ? path : `strategies.${strategy}.set.${path}`;
  const description = shown.ok ? describePath(shown.scenario, place) : path;
  const [only] = parts.value;
  const span = parts.value.length === 1 && 'span' in only ? only.span : spanOver(settings);
  const kind = span === null ? 'choice' : isWhole ? 'whole' : 'real';
  return { ok: true, value: { path, description: description === place ? path : description, kind, settings, span } };
}

function atSetting(setting: Setting, message: string): string {
  return message.startsWith('unknown path ') ? message : `at ${show(settingText(setting))}: ${message}`;
}

function settingsOf(part: RangePart, isWhole: boolean): readonly Setting[] {
  if ('single' in part) return [part.single];
  return numbersOf(part.span, isWhole).map((number) => written(number, part.span.unit));
}

/** Whether only whole numbers make sense between the ends: they are whole, and counted or refused in between. */
function isWholeIn(loaded: LoadedScenario, path: string, part: RangePart, strategy: string | null): boolean {
  if ('single' in part) {
    const { single } = part;
    if (typeof single !== 'number') return typeof single !== 'string' || !/^[\d.]/u.test(single);
    return Number.isInteger(single) && !applySettings(loaded, [[path, single + 0.5]], strategy).ok;
  }
  const { low, high, unit, step, count } = part.span;
  if (![low, high, step ?? 1].every(Number.isInteger)) return false;
  if (/^(?:images|approaches|sessions)$/u.test(unit)) return true;
  if (count !== null && unit !== '') return false;
  return !applySettings(loaded, [[path, written(low + 0.5, unit)]], strategy).ok;
}

/** The span of settings given one by one, where all are plain numbers. */
function spanOver(settings: readonly Setting[]): Span | null {
  const numbers = settings.filter((setting) => typeof setting === 'number');
  if (numbers.length < settings.length || numbers.length < 2) return null;
  const low = Math.min(...numbers);
  const high = Math.max(...numbers);
  return { low, high, unit: '', step: null, count: numbers.length, isLog: false };
}
