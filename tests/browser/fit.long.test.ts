import { fittedPage, madeFit } from '../support/fitted-log.js';
import { checkAccess, openPages } from '../support/page-checks.js';

const pages = openPages(async () => ({ 'on a log': await fittedPage(madeFit()) }));

checkAccess(pages, 'on a log', 'dark');
