import { stringify } from 'yaml';
import { describe, expect, it } from 'vitest';
import type { Decision } from '../../../src/lesson/session/choices.js';
import { Game } from '../../../src/lesson/parts/session/game.js';
import { playSession } from '../../../src/lesson/session/play.js';
import { modelOf } from '../../support/run.js';
import { after, kind, laidOver, pass, SCENE } from '../../support/scene.js';
import { ScriptedLuck } from '../../support/stage.js';

/** Two images, and a tip that breaks in the first one. */
const MODEL = modelOf(
  stringify(
    laidOver(SCENE, {
      plan: { passes: [pass('a', 10), pass('b', 10)] },
      tips: { sharp: kind(after(0.5, { cause: 'breakage' })) },
      noticing: { attempts: 2 },
    }),
  ),
);

function answerTo(decisions: readonly Decision[]) {
  const { outcome, timeline, ...playing } = playSession('', MODEL, new ScriptedLuck({}), decisions);
  const accounts = outcome === null ? null : { timelines: [timeline, timeline] as const, svg: '' };
  const account = {
    ...{ name: '', time: 0, lostScanning: 0, yield: 0, good: 0, undetectedBad: 0, unkept: 0, tips: 0, attempts: 0 },
    isComplete: true,
  };
  return { playing, afterwards: accounts === null ? null : { ...accounts, accounts: [account, account] as const } };
}

function begun(): Game {
  const game = new Game();
  game.restart([]);
  game.take(answerTo([]));
  return game;
}

describe('the game of a session', () => {
  it('lets time pass up to the question, and no further before it is decided', () => {
    const game = begun();
    game.pass(1e6);
    expect(game.time).toBe(1800);
    expect(game.asked?.doubt).toBe('flagged by an image');
    game.step();
    game.pass(100);
    expect(game.time).toBe(1800);
  });

  it('stands still after a decision until the engine has said what comes of it', () => {
    const game = begun();
    game.pass(1e6);
    expect(game.decide('replace')).toBe(true);
    game.pass(100);
    game.step();
    expect(game).toMatchObject({ time: 1800, asked: null });
    game.take(answerTo(game.decisions));
    game.step();
    expect(game.time).toBeGreaterThan(1800);
  });

  it('stops before the next image for whoever wants to inspect the tip, and knows when nothing was changed by that', () => {
    const game = begun();
    game.inspects = true;
    game.pass(1e6);
    expect(game.asked).toMatchObject({ point: 0, doubt: null });
    expect(game.time).toBe(1200);
    expect(game.decide('go on')).toBe(false);
    expect(game.decisions).toEqual([]);
  });

  it('drops later decisions where an earlier one is made anew', () => {
    const game = begun();
    game.restart([
      { point: 1, choice: 'replace' },
      { point: 2, choice: 'clean' },
    ]);
    game.take(answerTo([]));
    game.pass(1e6);
    game.decide('clean');
    expect(game.decisions).toEqual([{ point: 1, choice: 'clean' }]);
  });

  it('comes to the moment of the last decision of a link', () => {
    const game = new Game();
    const decisions: readonly Decision[] = [{ point: 1, choice: 'replace' }];
    game.restart(decisions);
    game.take(answerTo(decisions));
    game.moveToLastDecision();
    expect(game).toMatchObject({ time: 1800, asked: null });
  });

  it('is over at its end, and shows what was hidden no sooner', () => {
    const game = begun();
    const choices: Decision[] = [];
    for (let tries = 0; tries < 10 && !game.isOver; tries += 1) {
      game.pass(1e6);
      if (game.asked === null) continue;
      expect(game.afterwards).toBeNull();
      choices.push({ point: game.asked.point, choice: 'replace' });
      game.decide('replace');
      game.take(answerTo(choices));
    }
    expect(game.isOver).toBe(true);
    expect(game.afterwards).not.toBeNull();
  });
});
