import type { Workplace } from './workplace.js';
import type { Wait } from './wait.js';
import type { StepModel } from './step-model.js';
import type { Need, Phase, StepName, SurfaceNeed } from './steps.js';

/** Done in no time. */
export type Act = (at: Workplace) => void;
/** Decides in no time; changes nothing. */
export type Test = (at: Workplace) => boolean;

/** What goes with a step. */
export interface StepDetails {
  /** Done as soon as it may start. */
  readonly begun?: Act;
  /** Had it to wait: whether it has become needless meanwhile, and is left out. */
  readonly isNeedless?: Test;
  /** Microseconds that it takes; by default a scan takes its time, anything else a draw. */
  readonly takes?: number;
  /** How it waits where it may not start at once; by default until it may. */
  readonly wait?: (at: Workplace) => Wait;
  /** Done in place of the step where that wait ends with `changed`; by default the procedure ends there. */
  readonly changed?: Act;
  /** Done at its end. */
  readonly then?: Act;
  /** Work at the bench while the instrument waits. */
  readonly isAtBench?: boolean;
}

/** A line of a procedure: a step, something done in no time, a wait, or lines that are gone through if, or while, a test holds. */
export type Line =
  | { readonly do: 'step'; readonly name: StepName; readonly phase: Phase; readonly details: StepDetails }
  | { readonly do: 'act'; readonly act: Act }
  | { readonly do: 'wait'; readonly wait: (at: Workplace) => Wait | null }
  | { readonly do: 'either'; readonly test: Test; readonly lines: Lines; readonly others: Lines }
  | { readonly do: 'while'; readonly test: Test; readonly lines: Lines }
  | { readonly do: 'repeat'; readonly test: Test; readonly lines: Lines };
export type Lines = readonly Line[];

export function step(name: StepName, phase: Phase, details: StepDetails = {}): Line {
  return { do: 'step', name, phase, details };
}

export function act(does: Act): Line {
  return { do: 'act', act: does };
}

/** Waits for something; null where it need not. */
export function waitFor(wait: (at: Workplace) => Wait | null): Line {
  return { do: 'wait', wait };
}

export function when(test: Test, lines: Lines): Line {
  return { do: 'either', test, lines, others: [] };
}

export function either(test: Test, lines: Lines, others: Lines): Line {
  return { do: 'either', test, lines, others };
}

/** Goes through the lines while a test holds, which is asked first. */
export function whilst(test: Test, lines: Lines): Line {
  return { do: 'while', test, lines };
}

/** Goes through the lines, and again as long as a test holds after them. */
export function repeat(lines: Lines, test: Test): Line {
  return { do: 'repeat', test, lines };
}

export const OP = { step: 0, act: 1, wait: 2, jump: 3, jumpIf: 4, jumpUnless: 5 } as const;

/** A step as it is done in a procedure. */
export interface StepPlan {
  readonly model: StepModel;
  /** Number of what its time counts as. */
  readonly activity: number;
  readonly need: Need;
  readonly surface: SurfaceNeed | null;
  readonly begun: Act | null;
  readonly isNeedless: Test | null;
  /** Negative where it is asked for as the step starts. */
  readonly takes: number;
  readonly wait: (at: Workplace) => Wait;
  readonly changed: Act | null;
  readonly then: Act | null;
  readonly isAtBench: boolean;
  readonly isScan: boolean;
}

const nothing: Act = () => undefined;
const always: Test = () => true;

/** One line of a compiled procedure. Made in one way, so that all have one shape and the interpreter finds everything in its place. */
export class Instruction {
  /** Where a jump goes to. */
  to = 0;

  constructor(
    readonly op: (typeof OP)[keyof typeof OP],
    readonly step: StepPlan | null = null,
    readonly act: Act = nothing,
    readonly test: Test = always,
    readonly wait: (at: Workplace) => Wait | null = () => null,
  ) {}
}
export type Procedure = readonly Instruction[];

/** Lays the lines of a procedure out flat; `planOf` works out once who and what a step needs, and what its time counts as. */
export function compileProcedure(
  lines: Lines,
  planOf: (name: StepName, phase: Phase, details: StepDetails) => StepPlan,
): Procedure {
  const flat: Instruction[] = [];
  const jump = (op: Instruction['op'], test = always) => {
    const jumping = new Instruction(op, null, nothing, test);
    flat.push(jumping);
    return (to = flat.length) => {
      jumping.to = to;
    };
  };
  const lay = (some: Lines) => {
    for (const line of some) layOne(line);
  };
  const layOne = (line: Line) => {
    switch (line.do) {
      case 'step':
        flat.push(new Instruction(OP.step, planOf(line.name, line.phase, line.details)));
        break;
      case 'act':
        flat.push(new Instruction(OP.act, null, line.act));
        break;
      case 'wait':
        flat.push(new Instruction(OP.wait, null, nothing, always, line.wait));
        break;
      case 'either': {
        const toOthers = jump(OP.jumpUnless, line.test);
        lay(line.lines);
        const toEnd = line.others.length === 0 ? null : jump(OP.jump);
        toOthers();
        lay(line.others);
        toEnd?.();
        break;
      }
      case 'while': {
        const from = flat.length;
        const toEnd = jump(OP.jumpUnless, line.test);
        lay(line.lines);
        jump(OP.jump)(from);
        toEnd();
        break;
      }
      case 'repeat': {
        const from = flat.length;
        lay(line.lines);
        jump(OP.jumpIf, line.test)(from);
      }
    }
  };
  lay(lines);
  return flat;
}
