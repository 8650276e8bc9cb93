/** The experiment cannot go on: something that is needed has run out, and no more comes. */
export class ExperimentOver extends Error {
  override readonly name = 'ExperimentOver';
}

/** A specimen is lost and no other is left: what is due of its sample stays missing, and the next sample comes on. */
export class SampleOver extends Error {}
