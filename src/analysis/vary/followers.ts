import type { LoadedScenario } from '../../scenario/load.js';
import { runnable } from '../../execution/replicate.js';
import { whatCounts } from '../../execution/what-counts.js';
import { applySettings, type Varied } from './varied.js';

/**
 * Names of the strategies whose campaigns change along a range; a strategy that sets the value itself does not follow the
 * shared part. Of a long range the first, the last and the middle setting are looked at.
 */
export function followersOf(
  loaded: LoadedScenario,
  { path, settings }: Varied,
  strategy: string | null = null,
): readonly string[] {
  const looked = [0, Math.floor(settings.length / 2), settings.length - 1].flatMap((place) => {
    const applied = applySettings(loaded, [[path, settings[place]]], strategy);
    return applied.ok ? [runnable(applied.scenario.strategies).map(whatCounts)] : [];
  });
  return loaded.strategies
    .filter((_, number) => new Set(looked.map((texts) => texts[number])).size > 1)
    .map(({ name }) => name);
}
