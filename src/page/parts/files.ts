/// <reference lib="dom" />

/** Hands a text to the browser to be saved. */
export function download(file: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/yaml' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = file;
  link.click();
  // The browser reads it a moment later.
  setTimeout(() => {
    URL.revokeObjectURL(address);
  }, 60_000);
}

/** The text of a file that somebody chose or dropped, with its name; null where there is none. */
export async function opened(files: FileList | null | undefined): Promise<{ file: string; text: string } | null> {
  const file = files?.item(0) ?? null;
  return file === null ? null : { file: file.name, text: await file.text() };
}
