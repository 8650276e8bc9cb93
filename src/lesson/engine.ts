import { isToPage, type ToWorker } from './messages.js';
import type { AnswerOf, QuestionOf, TaskName } from './tasks.js';

/** What the one who asked wants to know: every answer as it comes, the end, or why there is none. */
interface Listener<Answer> {
  readonly onAnswer: (answer: Answer) => void;
  readonly onEnd?: () => void;
  readonly onFault?: (message: string) => void;
}

interface Waiting {
  readonly take: (answer: unknown) => void;
  readonly end: () => void;
  readonly fault: (message: string) => void;
}

/** The page's end of its worker. */
export class Engine {
  private readonly worker: Worker;
  private readonly waiting = new Map<number, Waiting>();
  private last = 0;

  /** @param script source of the worker, @param scenario text of a scenario file */
  constructor(script: string, scenario: string) {
    const address = URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
    this.worker = new Worker(address);
    this.worker.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
      this.hear(data);
    });
    this.tell({ kind: 'open', text: scenario });
  }

  /** Asks the worker. @returns a function that drops the question: no answer comes after it */
  ask<Name extends TaskName>(name: Name, question: QuestionOf<Name>, listener: Listener<AnswerOf<Name>>): () => void {
    this.last += 1;
    const id = this.last;
    const isAnswer = (answer: unknown): answer is AnswerOf<Name> => answer !== undefined;
    this.waiting.set(id, {
      take: (answer) => {
        if (isAnswer(answer)) listener.onAnswer(answer);
      },
      end: () => listener.onEnd?.(),
      fault: (message) => listener.onFault?.(message),
    });
    this.worker.postMessage({ kind: 'ask', id, ask: { name, question } });
    return () => {
      if (this.waiting.delete(id)) this.tell({ kind: 'drop', id });
    };
  }

  private tell(message: ToWorker): void {
    this.worker.postMessage(message);
  }

  private hear(data: unknown): void {
    if (!isToPage(data)) return;
    const waiting = this.waiting.get(data.id);
    if (data.kind === 'answer') {
      waiting?.take(data.answer);
      return;
    }
    this.waiting.delete(data.id);
    if (data.kind === 'end') waiting?.end();
    else waiting?.fault(data.message);
  }
}
