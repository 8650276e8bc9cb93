import type { JobResult, Task } from './job.js';

/** Consecutive replications: results that came for them and are not handed over yet, and how many are to come. */
interface Place {
  readonly results: (() => JobResult)[];
  awaited: number;
}

/** Hands results over in the order of replications, whichever of them comes first. */
export class InOrder {
  private readonly places: Place[] = [];

  constructor(private readonly take: Task['take']) {}

  /** The next replications, whose result is there and can be read. */
  known(read: () => JobResult): void {
    this.places.push({ results: [read], awaited: 0 });
    this.handOver();
  }

  /** A place for the next replications, so many of them, whose results come in their order. */
  awaited(replications: number): Task['take'] {
    const place: Place = { results: [], awaited: replications };
    this.places.push(place);
    return (result) => {
      place.awaited -= result[0].count;
      place.results.push(() => result);
      this.handOver();
    };
  }

  private handOver(): void {
    for (let place = this.places.at(0); place !== undefined; place = this.places.at(0)) {
      for (const read of place.results.splice(0)) this.take(read());
      if (place.awaited > 0) return;
      this.places.shift();
    }
  }
}
