import { type Bathtub, bathtub } from './life/bathtub.js';
import { type Exponential, exponential } from './life/exponential.js';
import { type Gamma, gamma } from './life/gamma.js';
import type { LifeLaw } from './life/law.js';
import { type Lognormal, lognormal } from './life/lognormal.js';
import { type PerUnit, probability } from './life/probability.js';
import { type Weibull, weibull } from './life/weibull.js';

export type { LifeLaw } from './life/law.js';

/** A life distribution over exposure, in plain numbers of one exposure unit. */
export type Life = Bathtub | Exponential | Gamma | Lognormal | PerUnit | Weibull;

/** One line a law; the type asks for a new one here as soon as it stands in Life. */
const LAWS: { readonly [Name in Life['law']]: (life: Extract<Life, { law: Name }>) => LifeLaw } = {
  exponential,
  weibull,
  lognormal,
  gamma,
  bathtub,
  probability,
};

function compile<Name extends Life['law']>(law: Name, life: Extract<Life, { law: Name }>): LifeLaw {
  return LAWS[law](life);
}

/** The law that a life describes, its constants worked out once. */
export function compileLife(life: Life): LifeLaw {
  return compile(life.law, life);
}
