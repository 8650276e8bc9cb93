/** The experiment cannot go on: something that is needed has run out, and no more comes. */
export class ExperimentOver extends Error {
  override readonly name = 'ExperimentOver';
}
