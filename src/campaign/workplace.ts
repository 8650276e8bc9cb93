import { Instrument } from './instrument.js';
import { Noticing } from './noticing.js';
import { Scan } from './scan.js';

/** An instrument with whoever scans and judges there: what procedures are done at. */
export class Workplace extends Instrument {
  readonly noticing = new Noticing(this);
  readonly scan = new Scan(this, this.noticing);
}
