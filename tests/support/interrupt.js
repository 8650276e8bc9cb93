/**
 * Loaded before the program: sends it a signal after some milliseconds, and tells on descriptor 3 how many milliseconds of
 * processor time all its threads used from then to its end. Unlike those of the clock they are the same on a busy machine.
 */
import { writeSync } from 'node:fs';
import process from 'node:process';
import { setTimeout } from 'node:timers';
import { isMainThread } from 'node:worker_threads';

if (isMainThread) {
  setTimeout(() => {
    const before = process.cpuUsage();
    process.on('exit', () => {
      const { user, system } = process.cpuUsage(before);
      writeSync(3, String((user + system) / 1000));
    });
    process.kill(process.pid, process.env.INTERRUPT_BY);
  }, Number(process.env.INTERRUPT_AFTER)).unref();
}
