import type { ComponentType, VNode } from 'preact';
import { useMemo } from 'preact/hooks';

/** A part that is rendered anew only where what it is given has changed. */
export function memo<Props extends object>(part: (props: Props) => VNode): ComponentType<Props> {
  return (props: Props) => useMemo(() => part(props), Object.values(props));
}
