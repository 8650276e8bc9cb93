import { checkAccess, checkPage, openPages } from '../support/page-checks.js';
import { tuningPages } from '../support/sample-tunings.js';

const pages = openPages(() => tuningPages('one value', 'searched', 'no winner'));

checkPage(pages, 'one value', 3);
checkPage(pages, 'searched', 2);
// Without a winner nothing is lost: the picture of losses is none.
checkPage(pages, 'no winner', 2);
checkAccess(pages, 'one value', 'light');
checkAccess(pages, 'no winner', 'light');
