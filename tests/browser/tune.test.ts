import { checkAccess, checkPage, openPages } from '../support/page-checks.js';
import { tuningPages } from '../support/sample-tunings.js';

const pages = openPages(() => tuningPages('two values'));

checkPage(pages, 'two values', 2);
checkAccess(pages, 'two values', 'dark');
