import { fuzzShortly } from './short.js';

fuzzShortly(['shard file']);
