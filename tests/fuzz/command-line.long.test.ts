import { fuzzShortly } from './short.js';

fuzzShortly(['command line']);
