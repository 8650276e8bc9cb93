/** Signals by which somebody ends a program; what cannot be held off, such as a kill, is cleared up after by the next run. */
const ENDING = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/**
 * Does work that nobody may end halfway, such as putting one folder in the place of another. A signal that comes meanwhile
 * ends the program right after, unless somebody else listens to it.
 */
export function uninterrupted(work: () => void): void {
  let held: NodeJS.Signals | null = null;
  const hold = (signal: NodeJS.Signals) => {
    held = signal;
  };
  const unheard = ENDING.filter((signal) => process.listenerCount(signal) === 0);
  for (const signal of unheard) process.on(signal, hold);
  try {
    work();
  } finally {
    // What came meanwhile is told in the next turn but one: the rest of this one may be past the place where signals are read.
    setImmediate(() => {
      setImmediate(() => {
        for (const signal of unheard) process.off(signal, hold);
        if (held !== null) process.kill(process.pid, held);
      });
    });
  }
}
