/** Time skipped while the page was hidden or busy does not count: at most this many seconds a frame. */
const MOST_PER_FRAME = 0.1;

/** Calls back with the seconds that went by, frame by frame, while it runs. */
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
    const passed = Math.min(MOST_PER_FRAME, Math.max(0, (now - this.last) / 1000));
    this.last = now;
    this.frame = requestAnimationFrame(this.onFrame);
    this.tick(passed);
  };
}
