/** Stretches of time made few enough to draw. */
export interface Stretch<T> {
  readonly start: number;
  readonly end: number;
  readonly what: T;
}

/** Joins stretches that touch and are alike. */
export function joined<T>(stretches: readonly Stretch<T>[], alike: (a: T, b: T) => boolean): Stretch<T>[] {
  const all: Stretch<T>[] = [];
  for (const next of stretches) {
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
 * At most `columns` stretches over [0, end): where there are more, the time is cut into columns, each of which shows
 * what holds most of it, and columns in which nothing happens stay empty.
 */
export function drawable<T>(
  stretches: readonly Stretch<T>[],
  end: number,
  columns: number,
  alike: (a: T, b: T) => boolean,
): Stretch<T>[] {
  const whole = joined(
    stretches.filter((stretch) => stretch.end > stretch.start),
    alike,
  );
  if (whole.length <= columns) return whole;
  const width = end / columns;
  const cut: Stretch<T>[] = [];
  let first = 0;
  for (let column = 0; column < columns; column += 1) {
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
    if (held.length === 0) continue;
    const most = held.reduce((best, each) => (each.time > best.time ? each : best));
    cut.push({ start: from, end: to, what: most.what });
  }
  return joined(cut, alike);
}
