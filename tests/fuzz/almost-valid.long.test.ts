import { fuzzShortly } from './short.js';

fuzzShortly(['almost valid scenario', 'scenario of noise']);
