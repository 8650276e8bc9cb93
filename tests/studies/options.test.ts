import { describe, expect, it } from 'vitest';
import { Failure } from '../../src/scenario/failure.js';
import {
  aside,
  file,
  flag,
  list,
  meaning,
  oneOf,
  recordedLine,
  share,
  text,
  valuesOf,
  whole,
} from '../../src/studies/options.js';

const OPTIONS = {
  all: flag('all'),
  done: file('a table'),
  vary: list('values', 'which value?'),
  goal: meaning('goal', oneOf(['time', 'cost']), 'time'),
  most: meaning('most', whole({ min: 1, max: 9 })),
  zone: meaning('zone', share({ min: 0, max: 0.5 }), '1 %'),
  out: aside(text('folder')),
};

describe('options', () => {
  it('are read into what they mean: of one given several times the last, of a list all', () => {
    const typed = { vary: ['a=1', 'b=2'], goal: ['time', 'cost'], most: ['3'], zone: ['5 %'] };
    expect(valuesOf(OPTIONS, typed)).toEqual({
      ...{ all: false, done: undefined, vary: ['a=1', 'b=2'], goal: 'cost', most: 3, zone: 0.05, out: undefined },
    });
  });

  it('mean what is usual where they are not given', () => {
    expect(valuesOf(OPTIONS, {})).toMatchObject({ goal: 'time', zone: 0.01, most: undefined, vary: [] });
  });

  it.each([
    [{ goal: ['tme'] }, '--goal wants one of time, cost, not `tme`; did you mean `time`?'],
    [{ most: ['10'] }, '--most wants a whole number from 1 to 9, not "10"'],
    [{ most: ['1.5'] }, '--most wants a whole number'],
    [{ zone: ['40'] }, '--zone wants a share from 0 to 0.5, such as `0.9` or `90 %`, not "40"; did you mean `40 %`?'],
  ])('refuse %j, and say what is wanted', (typed, message) => {
    expect(() => valuesOf(OPTIONS, typed)).toThrow(Failure);
    expect(() => valuesOf(OPTIONS, typed)).toThrow(message);
  });

  it('stand in the recorded command line where results hang on them and they are not usual: files by name, flags last', () => {
    const typed = { all: true, done: ['in/here.csv'], vary: ['a=1', 'b=2'], goal: ['time'], out: ['there'] };
    expect(recordedLine('tune', 'my/plan.yaml', OPTIONS, typed)).toBe(
      'swap-or-hop tune plan.yaml --done here.csv --vary a=1 --vary b=2 --all',
    );
  });
});
