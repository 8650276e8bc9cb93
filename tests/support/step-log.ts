import type { Recorder, RecordedStep } from '../../src/campaign/recorder.js';

const DAYS = ['Mo', 'Tu', 'We', 'Th', 'Fr', 'Sa', 'Su'];
const MINUTE = 60_000_000;

/** `Mo 09:05`: a moment (microseconds from Monday 00:00) as it stands in a diary; later weeks are numbered, `2 Mo 09:05`. */
export function diaryTime(time: number): string {
  const minutes = time / MINUTE;
  const day = Math.floor(minutes / 1440);
  const week = Math.floor(day / 7) + 1;
  const inDay = minutes - day * 1440;
  const hours = String(Math.floor(inDay / 60)).padStart(2, '0');
  const clock = `${DAYS[day % 7]} ${hours}:${String(inDay % 60).padStart(2, '0')}`;
  return week === 1 ? clock : `${week} ${clock}`;
}

/** Keeps every step of a campaign. */
export class StepLog implements Recorder {
  readonly steps: RecordedStep[] = [];

  step(record: RecordedStep): void {
    this.steps.push(record);
  }

  event(): void {
    // Instants are not kept.
  }

  tip(): void {
    // The tip's state is not kept.
  }

  /** Every step with its start, waiting left out, and scans with the image's number from 1. */
  diary(): string[] {
    return this.steps
      .filter(({ step }) => step !== 'wait')
      .map(
        ({ start, step, take }) =>
          `${diaryTime(start)} ${step}${take === null ? '' : ` region ${take.image.region + 1} pass ${take.image.pass.pass + 1}`}`,
      );
  }
}
