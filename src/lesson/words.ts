/** So many images, as a sentence counts them. */
export function imagesText(count: number): string {
  return `${count} ${count === 1 ? 'image' : 'images'}`;
}
