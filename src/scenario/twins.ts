/** What is one and the same in every workflow: steps, how hands disturb the instrument, and its steady drift. */
const SHARED = /^workflows\.(swap|hop)\.(?:steps\.(?:setUp|warmUp|locate)(?:\.|$)|drift\.(?:handling\.|steady$))/u;

/** What tells whether two values of a register are one unknown. */
interface Known {
  readonly path: string;
  readonly value: string;
  readonly standing: string;
}

/** Where the same value of the other workflow stands; null for what belongs to one workflow. */
export function twinPath(path: string): string | null {
  const workflow = SHARED.exec(path)?.[1];
  if (workflow === undefined) return null;
  return path.replace(`workflows.${workflow}.`, `workflows.${workflow === 'swap' ? 'hop' : 'swap'}.`);
}

/** The same value of the other workflow, where both are given alike, so that the two are one unknown; null where there is none. */
export function twinOf<Value extends Known>(
  register: readonly Value[],
  { path, value, standing }: Known,
): Value | null {
  const there = twinPath(path);
  const twin = there === null ? undefined : register.find((other) => other.path === there);
  return twin?.value === value && twin.standing === standing ? twin : null;
}

/** Values without those whose twin comes before them: each unknown once. */
export function eachUnknownOnce<Value extends Known>(register: readonly Value[]): readonly Value[] {
  return register.filter((value, place) => {
    const twin = twinOf(register, value);
    return twin === null || register.indexOf(twin) > place;
  });
}
