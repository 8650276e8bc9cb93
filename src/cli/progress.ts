import { SingleBar } from 'cli-progress';
import type { Console } from './console.js';
import { Forecast, usedSoFar } from './forecast.js';

export interface Progress {
  /** @param of null where the end is not known */
  update(phase: string, done: number, of: number | null): void;
  stop(): void;
}

/** A bar on stderr while a study runs, which says how much is left; where nobody would see one, a line that says so where it is long. */
export function createProgress(console: Console): Progress {
  if (!console.lively) {
    const forecast = new Forecast((text) => {
      console.note(text);
    }, usedSoFar);
    return {
      update: (phase, done, of) => {
        forecast.update(phase, done, of);
      },
      stop: () => undefined,
    };
  }
  const bar = new SingleBar({
    format: '{phase} {bar} {value}/{total}, about {eta_formatted} left',
    barsize: 30,
    barCompleteChar: '━',
    barIncompleteChar: '─',
    clearOnComplete: true,
    // The work never yields to timers, so the bar is drawn by its updates; a Ctrl-C must leave the terminal as it was.
    synchronousUpdate: true,
    hideCursor: false,
    linewrap: true,
    stream: process.stderr,
  });
  let isShown = false;
  return {
    update: (phase, done, of) => {
      // Shown, it keeps the program from ending; so not before there is work, which sees to it that it stops.
      if (!isShown) bar.start(1, 0, { phase });
      isShown = true;
      bar.setTotal(Math.max(of ?? done, 1));
      bar.update(done, { phase });
    },
    stop: () => {
      bar.stop();
    },
  };
}
