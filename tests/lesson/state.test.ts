import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { State } from '../../src/lesson/state.js';

const PACE = { key: 'pace', start: 1, least: 0.5, most: 3, step: 0.05 };
const WHO = { key: 'who', start: 'swap', options: ['swap', 'hop & "hover"'] };

describe('the state of the page in its address', () => {
  it('is empty as long as all is as at the start', () => {
    const state = new State('');
    state.put(PACE, 2);
    state.put(PACE, 1);
    expect(state.fragment).toBe('');
  });

  it('comes back from its fragment for every choice', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 50 }), fc.constantFrom(...WHO.options), (steps, who) => {
        const pace = Number((0.5 + steps * 0.05).toFixed(6));
        const state = new State('');
        state.put(PACE, pace);
        state.put(WHO, who);
        const again = new State(state.fragment);
        expect(again.number(PACE)).toBe(pace);
        expect(again.choice(WHO)).toBe(who);
      }),
      { seed: 5 },
    );
  });

  it('never gives what its settings do not allow, whatever a link says', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const state = new State(`#${new URLSearchParams({ pace: text, who: text, seed: text }).toString()}`);
        const pace = state.number(PACE);
        expect(pace >= 0.5 && pace <= 3).toBe(true);
        expect(WHO.options).toContain(state.choice(WHO));
        expect(state.text({ key: 'seed', form: /^[a-z]{1,3}$/u })).toMatch(/^[a-z]{0,3}$/);
      }),
      { seed: 6 },
    );
  });
});
