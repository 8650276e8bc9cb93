/** The board is drawn so often, and no more: seconds. The rest of the time is the page's own. */
const BETWEEN = 0.1;
/** Time skipped while the page was hidden or busy does not count: at most this many seconds at once. */
const MOST_AT_ONCE = 0.25;

/** Calls back with the seconds that went by, a few frames at a time, while it runs. */
export class FrameClock {
  private frame: number | null = null;
  private last = 0;

  constructor(private readonly tick: (seconds: number) => void) {}

  get isRunning(): boolean {
    return this.frame !== null;
  }

  start(): void {
    if (this.frame !== null) return;
    this.last = performance.now();
    this.frame = requestAnimationFrame(this.onFrame);
  }

  stop(): void {
    if (this.frame !== null) cancelAnimationFrame(this.frame);
    this.frame = null;
  }

  private readonly onFrame = (now: number): void => {
    this.frame = requestAnimationFrame(this.onFrame);
    const passed = (now - this.last) / 1000;
    if (passed < BETWEEN) return;
    this.last = now;
    this.tick(Math.min(MOST_AT_ONCE, passed));
  };
}
