/** Loaded into a command before it starts (`node --import`): at its end, tells file descriptor 3 what it has used. */
import { writeSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';

if (isMainThread) {
  process.on('exit', () => {
    const { userCPUTime, maxRSS } = process.resourceUsage();
    writeSync(3, JSON.stringify({ user: userCPUTime / 1e6, peak: maxRSS * 1024 }));
  });
}
