import { fuzzShortly } from './short.js';

fuzzShortly(['any scenario', 'any comparison']);
