/** Stretches of time made fit to draw: without the hours in which everything is closed, and few enough. */

export interface Stretch<T> {
  readonly start: number;
  readonly end: number;
  readonly what: T;
}

/** A stretch with the part of a row's height that it takes, both ends between 0 and 1. */
export interface Block<T> extends Stretch<T> {
  readonly from: number;
  readonly to: number;
}

/** Joins stretches that touch and are alike; what has no length goes. */
export function joined<T>(stretches: readonly Stretch<T>[], alike: (a: T, b: T) => boolean): Stretch<T>[] {
  const all: Stretch<T>[] = [];
  for (const next of stretches) {
    if (!(next.end > next.start)) continue;
    const last = all.at(-1);
    if (last !== undefined && last.end >= next.start && alike(last.what, next.what)) {
      all[all.length - 1] = { ...last, end: next.end };
    } else {
      all.push(next);
    }
  }
  return all;
}

/**
 * The stretches with the closed ones cut out of time, so that what stood before and after a night touches; a stretch
 * over a night shrinks by it. Also the places, in the new time, where something was cut out.
 */
export function withoutClosed<T>(
  stretches: readonly Stretch<T>[],
  closed: readonly Stretch<unknown>[],
): { readonly stretches: readonly Stretch<T>[]; readonly cuts: number[] } {
  if (closed.length === 0) return { stretches, cuts: [] };
  const nights = joined(closed, () => true);
  const gone: number[] = [];
  nights.reduce((sum, night) => {
    gone.push(sum);
    return sum + night.end - night.start;
  }, 0);
  const moved = (time: number): number => {
    let low = 0;
    let high = nights.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (nights[middle].start < time) low = middle + 1;
      else high = middle;
    }
    if (low === 0) return time;
    const night = nights[low - 1];
    const inside = Math.min(time, night.end) - night.start;
    return time - gone[low - 1] - inside;
  };
  return {
    stretches: stretches.map(({ start, end, what }) => ({ start: moved(start), end: moved(end), what })),
    cuts: nights.map((night) => moved(night.end)),
  };
}

/**
 * Blocks over [0, end). Up to `columns` stretches are drawn as they are, over the whole height. Where there are more,
 * time is cut into columns that show the shares of what they hold, one above the other.
 */
export function blocks<T>(
  stretches: readonly Stretch<T>[],
  end: number,
  columns: number,
  alike: (a: T, b: T) => boolean,
  order: (a: T, b: T) => number,
): Block<T>[] {
  const whole = joined(stretches, alike);
  if (whole.length <= columns) return whole.map((stretch) => ({ ...stretch, from: 0, to: 1 }));
  const last = whole.reduce((latest, stretch) => Math.max(latest, stretch.end), 0);
  const number = Math.max(1, Math.ceil((columns / 6) * (last / end)));
  const width = last / number;
  const all: Block<T>[] = [];
  let first = 0;
  for (let column = 0; column < number; column += 1) {
    const from = column * width;
    const to = from + width;
    while (first < whole.length && whole[first].end <= from) first += 1;
    const held: { what: T; time: number }[] = [];
    for (let at = first; at < whole.length && whole[at].start < to; at += 1) {
      const { what, start, end: stop } = whole[at];
      const time = Math.min(stop, to) - Math.max(start, from);
      const same = held.find((each) => alike(each.what, what));
      if (same === undefined) held.push({ what, time });
      else same.time += time;
    }
    let height = 0;
    for (const { what, time } of held.sort((a, b) => order(a.what, b.what))) {
      const next = height + time / width;
      all.push({ start: from, end: to, what, from: height, to: next });
      height = next;
    }
  }
  return all;
}
