/// <reference lib="dom" />
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Along } from '../engine/along-values.js';
import type { WorthSummary } from '../../studies/worth/results.js';
import { type Answer, isToPage, type Reading, type Slot, type ToWorker } from '../messages.js';

/** What the page knows of what its worker does. */
export interface Seen {
  readonly text: string;
  readonly reading: Reading | null;
  /** The last form that a text gave; what is wrong with a later one is told beside its fields. */
  readonly form: Reading['form'];
  readonly answer: Answer | null;
  /** Whether the answer is of an earlier setting. */
  readonly isOld: boolean;
  /** Null while nothing is under way. */
  readonly progress: { readonly phase: string; readonly share: number } | null;
  readonly failure: string | null;
  /** Along the range of the value that is looked at; null while there is none. */
  readonly along: Along | null;
  /** What to measure first; null until that was asked for and found. */
  readonly worth: WorthSummary | null;
  readonly isWeighing: boolean;
}

const NOTHING: Seen = {
  ...{ text: '', reading: null, form: null, answer: null, isOld: false, progress: null, failure: null, along: null },
  ...{ worth: null, isWeighing: false },
};

/** What a part of the page may ask for. */
export interface Asking {
  /** The scenario as a person has typed it. */
  readonly setText: (text: string) => void;
  /** One value of it; empty for its default. */
  readonly setValue: (path: string, value: string) => void;
  readonly pin: (slot: Slot, isPinned: boolean) => void;
  readonly runTo: (most: number) => void;
  /** Looks at one value along its range; null looks at none. */
  readonly lookAlong: (path: string | null) => void;
  /** Asks what to measure first. */
  readonly weigh: () => void;
}

/** The page's end of its worker. Of values that come faster than they are answered, the last of each path goes out. */
class Link {
  private readonly worker: Worker;
  private version = 0;
  /** The version of which there are no figures yet. */
  private awaited: number | null = null;
  private readonly waiting = new Map<string, string>();
  private seen = NOTHING;
  /** The value that is looked at along its range, and of which version that was asked. */
  private looked: string | null = null;
  private lookedAt = 0;

  constructor(
    script: string,
    private readonly show: (seen: Seen) => void,
  ) {
    const address = URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
    this.worker = new Worker(address);
    this.worker.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
      this.hear(data);
    });
  }

  setText(text: string): void {
    this.waiting.clear();
    this.begin();
    this.change({ text });
    this.tell({ kind: 'text', version: this.version, text });
  }

  setValue(path: string, value: string): void {
    if (this.awaited !== null) {
      this.waiting.set(path, value);
      return;
    }
    this.begin();
    this.change({});
    this.tell({ kind: 'value', version: this.version, path, value });
  }

  lookAlong(path: string | null): void {
    this.looked = path;
    this.change({ isOld: this.seen.isOld, along: null });
    if (path !== null) this.tell({ kind: 'along', path });
  }

  weigh(): void {
    this.change({ isOld: this.seen.isOld, isWeighing: true });
    this.tell({ kind: 'worth' });
  }

  tell(message: ToWorker): void {
    this.worker.postMessage(message);
  }

  end(): void {
    this.worker.terminate();
  }

  private begin(): void {
    this.version += 1;
    this.awaited = this.version;
    // It was found of the setting before.
    this.seen = { ...this.seen, worth: null, isWeighing: false };
  }

  /** Once a setting has its first figures, the next value goes out. */
  private goOn(): void {
    this.awaited = null;
    for (const [path, value] of this.waiting) {
      this.waiting.delete(path);
      this.setValue(path, value);
      break;
    }
  }

  private change(more: Partial<Seen>): void {
    this.seen = { ...this.seen, isOld: true, failure: null, ...more };
    this.show(this.seen);
  }

  private hear(data: unknown): void {
    if (!isToPage(data) || data.version !== this.version) return;
    switch (data.kind) {
      case 'reading': {
        const { reading } = data;
        const isRun = reading.form !== null;
        this.change({
          ...{ reading, text: reading.text, form: reading.form ?? this.seen.form },
          progress: isRun ? { phase: 'Simulating', share: 0 } : null,
        });
        if (!isRun) this.goOn();
        return;
      }
      case 'answer':
        this.change({ answer: data.answer, isOld: false, ...(data.answer.isTried ? { progress: null } : {}) });
        this.goOn();
        // What is looked at along its range follows the setting.
        if (this.looked !== null && this.awaited === null && this.lookedAt !== this.version) {
          this.lookedAt = this.version;
          this.tell({ kind: 'along', path: this.looked });
        }
        return;
      case 'along':
        this.change({ isOld: this.seen.isOld, along: data.along });
        return;
      case 'worth':
        this.change({ isOld: this.seen.isOld, worth: data.worth, isWeighing: false });
        return;
      case 'progress':
        this.change({ isOld: this.seen.isOld, progress: { phase: data.phase, share: data.share } });
        return;
      case 'failure':
        this.change({ failure: data.message, progress: null, isWeighing: false });
        this.goOn();
        return;
    }
  }
}

/** A worker for as long as the page stands, what is known of it, and what may be asked of it. */
export function useExplorer(script: string): readonly [Seen, Asking] {
  const [seen, show] = useState(NOTHING);
  const link = useRef<Link | null>(null);
  const asking = useMemo<Asking>(
    () => ({
      setText: (text) => link.current?.setText(text),
      setValue: (path, value) => link.current?.setValue(path, value),
      pin: (slot, isPinned) => link.current?.tell({ kind: 'pin', slot, isPinned }),
      lookAlong: (path) => link.current?.lookAlong(path),
      weigh: () => link.current?.weigh(),
      runTo: (most) => link.current?.tell({ kind: 'replications', most }),
    }),
    [],
  );
  link.current ??= new Link(script, show);
  useEffect(
    () => () => {
      link.current?.end();
    },
    [],
  );
  return [seen, asking];
}
