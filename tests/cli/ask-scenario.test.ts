import { describe, expect, it } from 'vitest';
import { askScenario } from '../../src/cli/ask-scenario.js';
import { type Key, NO_ANSWERS, questions } from '../../src/guide/questions.js';
import { loadScenario } from '../../src/scenario/load.js';
import { inEmptyFolder, swapOrHop } from '../support/command.js';

/** With three kinds of images and of tips, so that every question is there. */
const ALL = questions({
  ...NO_ANSWERS,
  own: new Map([
    ['imageKinds', '3'],
    ['tipKinds', '3'],
  ]),
});

/** Answers by the question's key, several where the first are refused; Enter for all others. */
function person(...answers: readonly (readonly [Key, ...string[]])[]) {
  const said: string[] = [];
  const heard: string[] = [];
  const left = new Map(answers.map(([key, ...each]) => [key, each]));
  const ask = (asked: string): Promise<string> => {
    heard.push(asked);
    const question =
      ALL.find(({ asks }) => asked.includes(asks)) ?? ALL.find(({ asks }) => asked.includes(plain(asks)));
    return Promise.resolve((question === undefined ? undefined : left.get(question.key)?.shift()) ?? '');
  };
  return { said, heard, ask, say: (line: string) => said.push(line) };
}

/** Without the name of the kind before it, which stands there where there is more than one. */
function plain(asks: string): string {
  return asks.replace(/^.*?: /u, '');
}

describe('init --ask', () => {
  it('makes a sound scenario of Enter alone', async () => {
    const { ask, say } = person();
    expect(loadScenario(await askScenario(ask, say))).toMatchObject({ ok: true, warnings: [] });
  });

  it('asks again, in the words of the reader of scenarios, until an answer can be meant', async () => {
    const { ask, say, said } = person(
      ['exchange', 'soon', '6 min'],
      ['environment', 'water', 'liquid'],
      ['samples', '?', '2'],
    );
    const text = await askScenario(ask, say);
    expect(text).toContain('exchange: { usual: 6 min, p90: 10.2 min } # your answer');
    expect(text).toContain('samples: 2 # your answer');
    expect(text).toContain('settle: { usual: 15 min');
    expect(said.join('\n')).toMatch(/read `soon`.*a time such as `10 min` is wanted/u);
    expect(said.join('\n')).toContain('one of air, liquid, vacuum is wanted');
    expect(said.join('\n')).toContain('this is chosen, so somebody has to know it');
  });

  it('takes ? for unknown, and widens the range', async () => {
    const { ask, say } = person(['contamination', '?']);
    expect(await askScenario(ask, say)).toContain('tips.sharp.hazards.fouling.life.mean: [12 images, 300 images]');
  });

  it('takes `measured`, alone or behind an answer, for a source; of what is chosen it is part of the answer', async () => {
    const { ask, say } = person(['exchange', '6 min, measured'], ['relocate', 'measured'], ['title', 'As measured']);
    const text = await askScenario(ask, say);
    expect(text).toContain('exchange: { usual: 6 min, p90: 10.2 min } # measured here: 6 min');
    for (const step of ['exchange', 'relocate'])
      expect(text).toContain(`workflows.swap.steps.${step}.usual: 'measured here, as answered at the start'`);
    expect(text).toContain('title: As measured\n');
  });

  it('asks of further kinds of images and tips only where there are any', async () => {
    const alone = person();
    await askScenario(alone.ask, alone.say);
    expect(alone.heard.join()).not.toMatch(/kinds of tip|called\? \[image|detail/u);
    const two = person(
      ['imageKinds', '2'],
      ['size 2', '300 nm'],
      ['tipKinds', '2'],

      ['radius 2', '20 nm'],
    );
    const text = await askScenario(two.ask, two.say);
    expect(two.heard.filter((asked) => asked.includes('How large is an image?'))).toHaveLength(2);
    const read = loadScenario(text);
    expect(read).toMatchObject({ ok: true, warnings: [] });
    expect(text).toMatch(
      /name: detail\n {6}tip: sturdy [\s\S]*size: 300 nm # your answer[\s\S]*sturdy:\n {4}radius: \{ nominal: 20 nm/u,
    );
  });

  it('is refused where nobody can be asked', async () => {
    await inEmptyFolder(async (cwd) => {
      const { code, stderr } = await swapOrHop(['init', 'mine.yaml', '--ask'], { cwd });
      expect([code, stderr]).toEqual([2, expect.stringContaining('there is no terminal to ask on')]);
    });
  });
});
