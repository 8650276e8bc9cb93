/** With what a wait ends: an operator's hands are held, nothing is, or what is to be done is decided anew. */
export type Ready = 'hands' | 'nothing' | 'changed';

/** A wait: suspended at each `yield`, which gives the reason of an interrupt. */
export type Wait = Generator<void, Ready | undefined, unknown>;
