import { strToU8, zipSync } from 'fflate';

/** What a cell of a made workbook holds; a date is one of a day. */
export type MadeCell = string | number | Date | null | { readonly formula: string; readonly value: number };

const DAY = 86_400_000;
/** Day 0 of a workbook's dates (ECMA-376, part 1, 18.17.4.1). */
const EPOCH = Date.UTC(1899, 11, 30);

function letters(column: number): string {
  return column < 26 ? String.fromCharCode(65 + column) : letters(Math.floor(column / 26) - 1) + letters(column % 26);
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
}

function cellXml(cell: MadeCell, place: string): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return `<c r="${place}"><v>${cell}</v></c>`;
  if (cell instanceof Date) return `<c r="${place}" s="1"><v>${(cell.getTime() - EPOCH) / DAY}</v></c>`;
  if (typeof cell === 'object') return `<c r="${place}"><f>${cell.formula}</f><v>${cell.value}</v></c>`;
  return `<c r="${place}" t="inlineStr"><is><t xml:space="preserve">${escaped(cell)}</t></is></c>`;
}

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';

/** An `.xlsx` workbook of these sheets (ECMA-376), with as little as one needs. */
export function madeWorkbook(sheets: Readonly<Record<string, readonly (readonly MadeCell[])[]>>): Uint8Array {
  const names = Object.keys(sheets);
  const numbered = names.map((name, i) => ({ name, number: i + 1 }));
  const parts: Record<string, string> = {
    '[Content_Types].xml': `${HEAD}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/></Types>`,
    '_rels/.rels': `${HEAD}<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${RELATIONS}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    'xl/workbook.xml': `${HEAD}<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><sheets>${numbered.map(({ name, number }) => `<sheet name="${escaped(name)}" sheetId="${number}" r:id="rId${number}"/>`).join('')}</sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': `${HEAD}<Relationships xmlns="${PACKAGE}/relationships">${numbered.map(({ number }) => `<Relationship Id="rId${number}" Type="${RELATIONS}/worksheet" Target="worksheets/sheet${number}.xml"/>`).join('')}<Relationship Id="rId99" Type="${RELATIONS}/styles" Target="styles.xml"/></Relationships>`,
    'xl/styles.xml': `${HEAD}<styleSheet xmlns="${MAIN}"><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="14" applyNumberFormat="1"/></cellXfs></styleSheet>`,
  };
  for (const { name, number } of numbered) {
    const rows = sheets[name].map((cells, row) => {
      const xml = cells.map((cell, column) => cellXml(cell, `${letters(column)}${row + 1}`)).join('');
      return `<row r="${row + 1}">${xml}</row>`;
    });
    parts[`xl/worksheets/sheet${number}.xml`] =
      `${HEAD}<worksheet xmlns="${MAIN}"><sheetData>${rows.join('')}</sheetData></worksheet>`;
  }
  return zipSync(Object.fromEntries(Object.entries(parts).map(([path, text]) => [path, strToU8(text)])));
}
