import fc from 'fast-check';

// That a mutant is found out is enough; the smallest example of it is not wanted, and takes by far the longest.
fc.configureGlobal({ endOnFailure: true });
